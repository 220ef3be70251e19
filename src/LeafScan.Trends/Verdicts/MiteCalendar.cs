namespace LeafScan.Trends.Verdicts;

/// <summary>When in the year the mites of a plant feed.</summary>
public enum MiteCalendar
{
    /// <summary>Not known: every season in which any mite stops by itself counts as one.</summary>
    Unknown,

    /// <summary>Hot and dry: twospotted mite, honeylocust mite. Crash by themselves in late summer.</summary>
    Warm,

    /// <summary>Spring and fall: spruce mite, southern red mite. Sit out the summer as eggs.</summary>
    Cool,

    /// <summary>Boxwood mite: late spring to early summer, again in late summer.</summary>
    Boxwood,
}

/// <summary>
/// The parts of the year in which mites get fewer whatever is done. Seasons after UMass and Utah State (honeylocust mite: peak in
/// July, collapse in August), Penn State and Oregon State (spruce mite: eggs in summer), NC State AG-189 and Rutgers (boxwood mite);
/// the days themselves are our own choice for the northern hemisphere.
/// </summary>
public static class QuietSeason
{
    /// <summary>The first day between two days on which mites may stop by themselves; null when there is none.</summary>
    /// <param name="calendar">Which mites.</param>
    /// <param name="from">First day.</param>
    /// <param name="to">Last day.</param>
    public static DateOnly? Begins(MiteCalendar calendar, DateOnly from, DateOnly to)
    {
        for (DateOnly day = from; day <= to; day = day.AddDays(1))
        {
            if (Holds(calendar, (day.Month * 100) + day.Day))
            {
                return day;
            }
        }

        return null;
    }

    private static bool Holds(MiteCalendar calendar, int monthDay) => calendar switch
    {
        MiteCalendar.Warm => monthDay is >= 720 or < 315,
        MiteCalendar.Cool => monthDay is (>= 520 and < 910) or >= 1115 or < 301,
        MiteCalendar.Boxwood => monthDay is (>= 610 and < 815) or >= 920 or < 315,
        _ => monthDay is >= 520 or < 315,
    };

    /// <summary>The calendar by a plant's botanical name; unknown when there is no name.</summary>
    /// <param name="species">Such as "Euonymus alatus"; null when not known.</param>
    public static MiteCalendar CalendarOf(string? species)
    {
        string genus = species?.Trim().Split(' ')[0].ToUpperInvariant() ?? string.Empty;
        return genus switch
        {
            "" => MiteCalendar.Unknown,
            "BUXUS" => MiteCalendar.Boxwood,
            "PICEA" or "ABIES" or "PSEUDOTSUGA" or "TSUGA" or "THUJA" or "JUNIPERUS" or "CHAMAECYPARIS" or "PINUS" or "ILEX" or "RHODODENDRON" => MiteCalendar.Cool,
            _ => MiteCalendar.Warm,
        };
    }
}
