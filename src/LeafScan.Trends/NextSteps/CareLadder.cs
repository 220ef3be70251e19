using LeafScan.Records;

namespace LeafScan.Trends.NextSteps;

/// <summary>The lightest kind of care that was not tried yet: water, soap, oil, predators, and a miticide last.</summary>
internal static class CareLadder
{
    private const int DaysBack = 56;

    private const int RinsesThatCount = 3;

    /// <summary>The next step; rinsing counts as tried after three times within eight weeks.</summary>
    public static AdviceLine Next(PlantSituation plant, string seen)
    {
        int Done(CareKind kind) => plant.Care.Count(care => care.What == kind && care.Day <= plant.Today && plant.Today.DayNumber - care.Day.DayNumber <= DaysBack);
        bool oilSuits = OilCautions.Against(plant).Count == 0;
        return Done(CareKind.Rinse) < RinsesThatCount
            ? new("If anything, rinse: undersides, about every three days for two weeks.", seen + " The lightest step comes first; eggs stay, so once is not enough.", "St. Louis garden column 2023, Missouri, on burning bush; order of steps: " + AdviceLine.Own)
            : Done(CareKind.Soap) == 0
            ? new("Next lightest step: insecticidal soap by its label, both sides of the leaves, not in the heat.", seen + " Rinsing was tried three times.", "University of Florida/IFAS, Florida")
            : Done(CareKind.Oil) == 0 && oilSuits
            ? new("Next lightest step: horticultural oil by its label, if the plant bears oil.", seen + " Rinsing and soap were tried.", "WSU Hortsense, Washington")
            : Done(CareKind.Predators) == 0
            ? new("Next step: release predators, and spray nothing that kills them.", seen + (oilSuits ? " Rinsing, soap and oil were tried." : " Rinsing and soap were tried, and oil does not suit now."), "PNW Insect Handbook, Pacific Northwest; UC IPM, California")
            : new("Last step: a miticide by its label, by whoever the law lets apply it" + Rotation(plant), seen + (oilSuits ? " Every lighter step was tried." : " Every lighter step that suits was tried."), "order of steps: " + AdviceLine.Own);
    }

    private static string Rotation(PlantSituation plant)
        => ModeGroups.LastOf(plant.Care) is { } group ? $", of another group than {group}, your last one." : ", of another group than the last one in your log.";
}
