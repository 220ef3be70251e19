using LeafScan.Records;

namespace LeafScan.Trends.Verdicts;

/// <summary>Which days count as before the care and which as since.</summary>
internal sealed record CareWindow
{
    /// <summary>Day of the first entry of the course that is judged.</summary>
    public required DateOnly FirstCare { get; init; }

    /// <summary>Day of its last entry up to now.</summary>
    public required DateOnly LastCare { get; init; }

    /// <summary>What was done, each kind once.</summary>
    public required IReadOnlyList<CareKind> Kinds { get; init; }

    /// <summary>First day that counts as before.</summary>
    public required DateOnly From { get; init; }

    /// <summary>Last day on which the care is still judged.</summary>
    public required DateOnly Until { get; init; }

    /// <summary>
    /// The last course of care. Entries that follow each other within the days for which an entry is judged are one course.
    /// Null when nothing was done.
    /// </summary>
    public static CareWindow? Of(IReadOnlyList<HistoryCare> care, VerdictOptions options)
    {
        HistoryCare[] done = [.. care.Where(entry => entry.What != CareKind.Nothing).OrderBy(entry => entry.Day)];
        if (done.Length == 0)
        {
            return null;
        }

        int first = done.Length - 1;
        while (first > 0 && done[first].Day.DayNumber - done[first - 1].Day.DayNumber <= options.DaysJudged)
        {
            first--;
        }

        return new CareWindow
        {
            FirstCare = done[first].Day,
            LastCare = done[^1].Day,
            Kinds = [.. done[first..].Select(entry => entry.What).Distinct()],
            From = first == 0 ? DateOnly.MinValue : done[first - 1].Day,
            Until = done[^1].Day.AddDays(options.DaysJudged),
        };
    }
}
