namespace LeafScan.Trends.Verdicts;

/// <summary>New damage a week on leaves that were photographed again and again.</summary>
internal sealed record SameLeaves
{
    /// <summary>Rate before the care, per leaf that has one.</summary>
    public required Estimate? Before { get; init; }

    /// <summary>Rate since.</summary>
    public required Estimate? Since { get; init; }

    /// <summary>Rates of the leaves that have both.</summary>
    public required IReadOnlyList<(double Before, double Since)> Pairs { get; init; }

    /// <summary>Whether the rate since leaves out the days in which old feeding still came out.</summary>
    public required bool IsClean { get; init; }

    /// <summary>Tagged leaves seen before that were not seen on the last visit.</summary>
    public required int LostCount { get; init; }

    /// <summary>Mean damage of the tagged leaves, or of all but new growth where none is tagged, on the last visit before or since, whichever is more; null without any.</summary>
    public required double? DamageMost { get; init; }

    /// <summary>Length of the window before, in weeks.</summary>
    public required double WeeksBefore { get; init; }

    /// <summary>Length of the window since, in weeks.</summary>
    public required double WeeksSince { get; init; }

    /// <summary>Visits of the window before, oldest first.</summary>
    public required IReadOnlyList<DateOnly> DaysBefore { get; init; }

    /// <summary>Visits of the window since, oldest first; the first may lie before the care.</summary>
    public required IReadOnlyList<DateOnly> DaysSince { get; init; }

    private double LeafVarianceBefore { get; init; }

    private double LeafVarianceSince { get; init; }

    /// <summary>Follows the leaves of one plant through the windows.</summary>
    public static SameLeaves Of(IReadOnlyList<HistoryVisit> visits, CareWindow window, VerdictOptions options)
    {
        HistoryVisit[] before = [.. visits.Where(visit => visit.Day <= window.FirstCare && visit.Day >= window.From)];
        HistoryVisit[] since = [.. visits.Where(visit => visit.Day > window.FirstCare && visit.Day <= window.Until)];
        int recent = Array.FindIndex(before, visit => window.FirstCare.DayNumber - visit.Day.DayNumber <= options.DaysJudged);
        before = before.Length <= 2 ? before : before[Math.Min(recent < 0 ? before.Length : recent, before.Length - 2)..];
        HistoryVisit[] shown = [.. since.Where(visit => visit.Day.DayNumber - window.FirstCare.DayNumber >= options.DaysUntilShown)];
        bool isClean = shown.Length >= 2;
        HistoryVisit[] after = isClean ? shown : before.Length > 0 ? [before[^1], .. since] : since;
        return Between(before, after, isClean, options);
    }

    /// <summary>Follows the leaves through two given windows.</summary>
    public static SameLeaves Between(HistoryVisit[] before, HistoryVisit[] since, bool isClean, VerdictOptions options)
    {
        Dictionary<string, (double Rate, double Noise)> first = Rates(before, options);
        Dictionary<string, (double Rate, double Noise)> second = Rates(since, options);
        string[] tagged = before.Length == 0 ? [] : [.. before[^1].Leaves.Select(leaf => leaf.Tag).OfType<string>().Distinct()];
        HashSet<string> last = since.Length == 0 ? [] : [.. since[^1].Leaves.Select(leaf => leaf.Tag).OfType<string>()];
        double weeksBefore = Weeks(before);
        double weeksSince = Weeks(since);
        return new SameLeaves
        {
            Before = Mean(first, weeksBefore, options),
            Since = Mean(second, weeksSince, options),
            Pairs = [.. first.Where(leaf => second.ContainsKey(leaf.Key)).Select(leaf => (leaf.Value.Rate, second[leaf.Key].Rate))],
            IsClean = isClean,
            LostCount = since.Length == 0 ? 0 : tagged.Count(tag => !last.Contains(tag)),
            DamageMost = before.TakeLast(1).Concat(since.TakeLast(1)).Max(DamageOf),
            WeeksBefore = weeksBefore,
            WeeksSince = weeksSince,
            DaysBefore = [.. before.Select(visit => visit.Day)],
            DaysSince = [.. since.Select(visit => visit.Day)],
            LeafVarianceBefore = first.Count == 0 ? 0 : first.Values.Average(leaf => leaf.Noise),
            LeafVarianceSince = second.Count == 0 ? 0 : second.Values.Average(leaf => leaf.Noise),
        };
    }

    /// <summary>
    /// Rate since minus <paramref name="times"/> times the rate before, leaf by leaf. What the leaves do to the mean is seen in
    /// their spread, which is never taken for less than the readings' own; errors that all leaves of a visit share come on top.
    /// Null with fewer leaves than asked for.
    /// </summary>
    public Estimate? SinceLess(double times, VerdictOptions options)
    {
        int count = Pairs.Count;
        if (count < options.SameLeavesLeast)
        {
            return null;
        }

        double[] differences = [.. Pairs.Select(pair => pair.Since - (times * pair.Before))];
        double noise = LeafVarianceSince + (times * times * LeafVarianceBefore);
        double shared = DaysBefore[^1] == DaysSince[0] ? Squared((1 / WeeksSince) + (times / WeeksBefore)) : (1 / Squared(WeeksSince)) + Squared(times / WeeksBefore);
        double visit = Squared(options.VisitSpread) * (shared + (1 / Squared(WeeksSince)) + Squared(times / WeeksBefore));
        return Of(differences, noise, visit);
    }

    /// <summary>
    /// Rate since over rate before: the quotient of the leaves' means, its error from how far each leaf lies from that quotient (ratio estimator; Cochran
    /// 1977, Sampling Techniques, from memory). Leaves carry very unequal numbers of mites, but before and since they go together, and that is
    /// what this uses. Null with few leaves or where hardly any damage came before.
    /// </summary>
    public Estimate? Ratio(VerdictOptions options)
    {
        if (Pairs.Count < options.SameLeavesLeast || Before is not { } || Pairs.Average(pair => pair.Before) is var before && before < options.RateThatMatters / 2)
        {
            return null;
        }

        double ratio = Math.Max(0, Pairs.Average(pair => pair.Since) / before);
        Estimate around = SinceLess(ratio, options)!.Value;
        return around with { Value = ratio, Error = around.Error / before };
    }

    private static Estimate? Mean(Dictionary<string, (double Rate, double Noise)> rates, double weeks, VerdictOptions options)
        => rates.Count < options.SameLeavesLeast
            ? null
            : Of([.. rates.Values.Select(leaf => leaf.Rate)], rates.Values.Average(leaf => leaf.Noise), 2 * Squared(options.VisitSpread / weeks));

    private static Estimate Of(double[] values, double noise, double visit)
    {
        double mean = values.Average();
        double spread = values.Sum(value => Squared(value - mean)) / (values.Length - 1);
        return new Estimate(mean, Math.Sqrt((Math.Max(spread, noise) / values.Length) + visit), values.Length - 1);
    }

    // Per leaf: what it gained between the first and the last time it was seen, a week, with the variance of the readings' errors in it.
    private static Dictionary<string, (double Rate, double Noise)> Rates(HistoryVisit[] visits, VerdictOptions options)
    {
        Dictionary<string, (DateOnly Day, HistoryLeaf Leaf)> first = [];
        Dictionary<string, (double Rate, double Noise)> rates = [];
        foreach (HistoryVisit visit in visits)
        {
            foreach (HistoryLeaf leaf in visit.Leaves)
            {
                if (leaf.Tag is not { } tag || first.TryAdd(tag, (visit.Day, leaf)))
                {
                    continue;
                }

                (DateOnly day, HistoryLeaf start) = first[tag];
                double weeks = (visit.Day.DayNumber - day.DayNumber) / 7.0;
                if (weeks > 0)
                {
                    rates[tag] = ((leaf.Damage - start.Damage) / weeks, (Noise(start, options) + Noise(leaf, options)) / Squared(weeks));
                }
            }
        }

        return rates;
    }

    internal static double Noise(HistoryLeaf leaf, VerdictOptions options)
    {
        // A 90 % interval reaches 1.645 standard deviations either way.
        double own = (leaf.DamageHigh - leaf.DamageLow) / (2 * 1.645);
        return Squared(Math.Max(options.RepeatSpread, options.FreshShareOfInterval * own));
    }

    private static double? DamageOf(HistoryVisit visit)
    {
        bool isTagged = visit.Leaves.Any(leaf => leaf.Tag is not null);
        return visit.Leaves.Where(leaf => isTagged ? leaf.Tag is not null : leaf.Age != LeafAge.NewGrowth).Average(leaf => (double?)leaf.Damage);
    }

    private static double Weeks(HistoryVisit[] visits) => visits.Length == 0 ? 0 : (visits[^1].Day.DayNumber - visits[0].Day.DayNumber) / 7.0;

    private static double Squared(double value) => value * value;
}
