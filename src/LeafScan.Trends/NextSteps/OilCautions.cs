namespace LeafScan.Trends.NextSteps;

/// <summary>Reasons against oil now: heat, plants that do not bear it, sulfur.</summary>
internal static class OilCautions
{
    // 50 to 85 F.
    private const double LeastC = 10, MostC = 29.4;

    private const int SulfurDays = 28;

    private static readonly string[] SensitiveGenera = ["Acer", "Carya", "Juglans", "Cryptomeria", "Cotinus", "Rhododendron", "Fagus", "Cercis", "Pseudotsuga"];

    public static IReadOnlyList<AdviceLine> Against(PlantSituation plant)
    {
        List<AdviceLine> lines = [];
        if (plant.HighestC > MostC || plant.MeanC < LeastC)
        {
            lines.Add(new("No oil now.", "Oil wants 50 to 85 F (10 to 29 °C).", "WSU Hortsense, Washington"));
        }

        if (plant.Species?.StartsWith("Picea pungens", StringComparison.OrdinalIgnoreCase) == true)
        {
            lines.Add(new("No oil on blue spruce, if the blue is to stay.", "Oil takes the bloom off until new needles grow.", "WSU Hortsense, Washington; Oregon State"));
        }

        if (IsDwarfAlberta(plant))
        {
            lines.Add(new("Oil on dwarf Alberta spruce only after a try on one branch.", "It is often called sensitive.", "arborists' pages, Ohio and others (weak sources)"));
        }

        if (SensitiveGenera.FirstOrDefault(genus => Genera.Is(plant.Species, genus)) is { } sensitive)
        {
            lines.Add(new($"Oil on {sensitive} only after a try on one branch.", "It stands in lists of plants that bear oil badly.", "WSU Hortsense, Washington; a garden site, USA"));
        }

        if (plant.Care.Any(care => Names(care, "sulfur") || Names(care, "sulphur")))
        {
            lines.Add(new("Keep oil and sulfur two to four weeks apart.", "Your log names sulfur.", "WSU Hortsense, Washington"));
        }

        return lines;

        bool Names(CareDone care, string word)
            => Math.Abs(plant.Today.DayNumber - care.Day.DayNumber) <= SulfurDays
            && (care.Note?.Contains(word, StringComparison.OrdinalIgnoreCase) == true || care.Active?.Contains(word, StringComparison.OrdinalIgnoreCase) == true);
    }

    private static bool IsDwarfAlberta(PlantSituation plant)
        => plant.Species?.StartsWith("Picea glauca", StringComparison.OrdinalIgnoreCase) == true
        && (plant.Species.Contains("Conica", StringComparison.OrdinalIgnoreCase) || plant.Cultivar?.Contains("Conica", StringComparison.OrdinalIgnoreCase) == true);
}
