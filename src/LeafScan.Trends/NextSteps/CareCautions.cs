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
            new("The label is the law: plant, site, rate, protection, re-entry, bees and bloom.", "It binds, and it knows the product.", "common practice, no source"),
            new("Spray nothing on open flowers or where bees fly; spare predators.", "Bees die, and without predators mites come back.", "common practice, no source; UC IPM, California"),
        ];
        if (plant.HighestC > 29.4 || plant.MeanC < 10)
        {
            lines.Add(new("No oil now.", "Oil wants 50 to 85 F (10 to 29 °C).", "WSU Hortsense, Washington"));
        }

        if (plant.Species?.StartsWith("Picea pungens", StringComparison.OrdinalIgnoreCase) == true)
        {
            lines.Add(new("No oil on blue spruce, if the blue is to stay.", "Oil takes the bloom off until new needles grow.", "WSU Hortsense, Washington; Oregon State"));
        }

        foreach ((string active, string source) in Flaring)
        {
            if (plant.Care.Any(care => care.Note?.Contains(active, StringComparison.OrdinalIgnoreCase) == true))
            {
                lines.Add(new($"Your log names {active}.", "It can make mites more, not fewer.", source));
            }
        }

        return lines;
    }
}
