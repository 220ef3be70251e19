using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.Weather;

/// <summary>Days from egg to adult.</summary>
/// <param name="DaysLeast">Fewest days.</param>
/// <param name="DaysMost">Most days.</param>
/// <param name="Valid">For which temperatures the figure was found.</param>
/// <param name="Source">Where it is from.</param>
public sealed record Development(int DaysLeast, int DaysMost, string Valid, string Source)
{
    /// <summary>Below this mean temperature twospotted mites are idle: about 50 °F (NC State 2014).</summary>
    public const double IdleBelowC = 10;

    /// <summary>Time of a generation at a mean temperature, of the mite that the plant's calendar stands for.</summary>
    /// <param name="calendar">When the mites feed.</param>
    /// <param name="meanC">Mean temperature of the last days, °C; null when not known.</param>
    /// <param name="species">Botanical name, which tells honeylocust mites from twospotted ones and conifers from hollies; null when not known.</param>
    /// <returns>Null, "cannot say": idle, no temperature for a mite that needs one, no figure for the mite, or too hot for any figure.</returns>
    public static Development? Of(MiteCalendar calendar, double? meanC, string? species = null) => calendar switch
    {
        MiteCalendar.Warm when Genera.Is(species, "Gleditsia") => new(4, 11, "summer heat to cool weather", "UMass Extension; Utah State Extension"),
        MiteCalendar.Warm => meanC switch
        {
            null or < IdleBelowC or > 35 => null,
            < 20 => new(20, 34, "10 to 20 °C", "UC IPM (28 days at 50-68 F); Egyptian Acad. J. Biol. Sci. F 13876 (30.6 to 34 days at 15 °C)"),

            // The straight line 146.48/(T - 12.5); its reach is cut at 30 °C, the warmest of its trial.
            { } mean => Around(146.48 / (Math.Min(mean, 30) - 12.5)),
        },

        // The figure is the spruce mite's; none was found for the southern red mite of hollies and azaleas.
        MiteCalendar.Cool when species is null || Genera.IsConifer(species) => new(14, 21, "its season, temperature not stated", "Penn State Extension; Oregon State University"),
        MiteCalendar.Boxwood => new(18, 21, "its season, temperature not stated", "NC State AG-189"),
        _ => null,
    };

    private static Development Around(double days) => new(
        (int)Math.Floor(days), (int)Math.Ceiling(days), "20 to 30 °C", "Egyptian Acad. J. Biol. Sci. B 12844: 146.48 °C-days above 12.5 °C");
}
