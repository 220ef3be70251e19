namespace LeafScan.Trends.NextSteps;

/// <summary>What to mind before anything is sprayed: always the label, then what plant, weather and log bring up.</summary>
internal static class CareCautions
{
    // Szczepaniec et al. 2011 to 2013 and Raupp et al. 2004; Rutgers; Kunkel 2008. "pyrethroid" for notes that name the class.
    private static readonly (string Active, string Source)[] Flaring =
    [
        ("imidacloprid", "Szczepaniec et al. 2011, PLoS ONE 6:e20018; Raupp et al. 2004, USA"),
        ("carbaryl", "Rutgers, New Jersey"),
        ("bifenthrin", "Kunkel 2008, Delaware; Rutgers 2023, New Jersey"),
        ("fluvalinate", "Kunkel 2008, Delaware; Rutgers 2023, New Jersey"),
        ("pyrethroid", "Kunkel 2008, Delaware; Rutgers 2023, New Jersey"),
    ];

    public static IReadOnlyList<AdviceLine> Of(PlantSituation plant)
    {
        List<AdviceLine> lines =
        [
            new("The label is the law: plant, site, rate, protection, re-entry, bees and bloom.", "It binds whoever sprays, and its maker knows the product.", AdviceLine.Common),
            new("Spray nothing on open flowers or where bees fly; spare predators.", "Bees die, and without predators mites come back.", $"{AdviceLine.Common}; UC IPM, California"),
            .. OilCautions.Against(plant),
        ];
        if (ModeGroups.TwiceInARow(plant.Care) is { } group)
        {
            lines.Add(new($"Not group {group} again: your last two miticides were of it.", "Mites that outlive one product outlive all of its group.", "IRAC: rotate the group, not the brand"));
        }

        foreach ((string active, string source) in Flaring)
        {
            if (plant.Care.Any(care => Names(care.Note, active) || Names(care.Active, active)))
            {
                lines.Add(new($"Your log names {active}.", "It can make mites more, not fewer.", source));
            }
        }

        return lines;
    }

    private static bool Names(string? text, string active) => text?.Contains(active, StringComparison.OrdinalIgnoreCase) == true;
}
