namespace LeafScan.Trends.Weather;

/// <summary>A mite by its habits.</summary>
public enum MiteKind
{
    /// <summary>Not known.</summary>
    Unknown,

    /// <summary>Twospotted spider mite: hot and dry weather.</summary>
    Twospotted,

    /// <summary>Honeylocust spider mite: peak in July, collapse in August.</summary>
    Honeylocust,

    /// <summary>Spruce spider mite: spring and fall, eggs in summer.</summary>
    Spruce,

    /// <summary>Southern red mite: spring and fall.</summary>
    SouthernRed,

    /// <summary>Boxwood spider mite: late spring to early summer, again late summer.</summary>
    Boxwood,
}

/// <summary>Days from egg to adult.</summary>
/// <param name="DaysLeast">Fewest days.</param>
/// <param name="DaysMost">Most days.</param>
/// <param name="Valid">For which temperatures the figure was found.</param>
/// <param name="Source">Where it is from.</param>
public sealed record Development(int DaysLeast, int DaysMost, string Valid, string Source)
{
    /// <summary>Below this mean temperature twospotted mites are idle: about 50 °F (NC State 2014).</summary>
    public const double IdleBelowC = 10;

    /// <summary>Time of a generation at a mean temperature.</summary>
    /// <param name="kind">Mite.</param>
    /// <param name="meanC">Mean temperature of the last days, °C; null when not known.</param>
    /// <returns>Null, "cannot say": idle, no temperature for a kind that needs one, no figure for the kind, or too hot for any figure.</returns>
    public static Development? Of(MiteKind kind, double? meanC) => kind switch
    {
        MiteKind.Twospotted => meanC switch
        {
            null or < IdleBelowC or > 35 => null,
            < 20 => new(20, 34, "10 to 20 °C", "UC IPM (28 days at 50-68 F); Egyptian Acad. J. Biol. Sci. F 13876 (30.6 to 34 days at 15 °C)"),

            // The straight line 146.48/(T - 12.5); its reach is cut at 30 °C, the warmest of its trial.
            { } mean => Around(146.48 / (Math.Min(mean, 30) - 12.5)),
        },
        MiteKind.Spruce => new(14, 21, "its season, temperature not stated", "Penn State Extension; Oregon State University"),
        MiteKind.Boxwood => new(18, 21, "its season, temperature not stated", "NC State AG-189"),
        MiteKind.Honeylocust => new(4, 11, "summer heat to cool weather", "UMass Extension; Utah State Extension"),
        _ => null,
    };

    private static Development Around(double days) => new(
        (int)Math.Floor(days), (int)Math.Ceiling(days), "20 to 30 °C", "Egyptian Acad. J. Biol. Sci. B 12844: 146.48 °C-days above 12.5 °C");
}
