namespace LeafScan.Trends.Verdicts;

/// <summary>Live mites a tap, which is one branch, before the care and since, of one plant or of several together.</summary>
internal sealed record TapChange
{
    /// <summary>Mean live mites a tap on the last day with taps before.</summary>
    public required double Before { get; init; }

    /// <summary>Mean of all dry taps since.</summary>
    public required double Since { get; init; }

    /// <summary>Live mites counted before, all taps together.</summary>
    public required int CountedBefore { get; init; }

    /// <summary>Live mites counted since, all taps together.</summary>
    public required int CountedSince { get; init; }

    /// <summary>Logarithm of since over before. Half a mite is added to each sum, so that none found stays finite.</summary>
    public required Estimate LogRatio { get; init; }

    /// <summary>Days with dry taps since, of all plants together.</summary>
    public required int DaysSince { get; init; }

    /// <summary>Taps left out because the plant was wet.</summary>
    public required int WetCount { get; init; }

    /// <summary>Puts the taps of a window together; null when one side has none.</summary>
    /// <param name="plants">The plants' taps.</param>
    /// <param name="window">The window.</param>
    /// <param name="options">Limits.</param>
    /// <param name="strikes">Number of strikes to which counts are brought; null for the mean of these taps.</param>
    public static TapChange? Of(IReadOnlyList<IReadOnlyList<HistoryTap>> plants, CareWindow window, VerdictOptions options, double? strikes = null)
    {
        double each = strikes ?? MeanStrikes(plants.SelectMany(taps => taps));
        List<TapSum> before = [];
        List<TapSum> since = [];
        int wet = 0;
        foreach (IReadOnlyList<HistoryTap> taps in plants)
        {
            HistoryTap[] good = [.. taps.Where(tap => IsDry(tap, options))];
            HistoryTap[] early = [.. good.Where(tap => tap.Day <= window.FirstCare && tap.Day >= window.From && window.FirstCare.DayNumber - tap.Day.DayNumber <= options.DaysJudged)];
            HistoryTap[] late = [.. Late(good, window, options)];
            wet += taps.Count(tap => tap.Day > window.FirstCare) - good.Count(tap => tap.Day > window.FirstCare);
            if (early.Length > 0 && late.Length > 0)
            {
                DateOnly last = early.Max(tap => tap.Day);
                before.Add(TapSum.Of(early.Where(tap => tap.Day == last), each));
                since.Add(TapSum.Of(late, each));
            }
        }

        if (before.Count == 0)
        {
            return null;
        }

        TapSum first = TapSum.Of(before);
        TapSum second = TapSum.Of(since);
        double log = Math.Log((second.Mites + 0.5) / second.Taps / ((first.Mites + 0.5) / first.Taps));
        double variance = first.LogVariance(options) + second.LogVariance(options);
        return new TapChange
        {
            Before = first.Mites / first.Taps,
            Since = second.Mites / second.Taps,
            CountedBefore = (int)Math.Round(first.Mites),
            CountedSince = (int)Math.Round(second.Mites),
            LogRatio = new Estimate(log, Math.Sqrt(variance), double.PositiveInfinity),
            DaysSince = second.Days,
            WetCount = wet,
        };
    }

    /// <summary>Mean number of strikes, of the taps that tell it; 1 when none does.</summary>
    public static double MeanStrikes(IEnumerable<HistoryTap> taps) => taps.Select(tap => tap.Strikes).OfType<int>().DefaultIfEmpty(1).Average();

    /// <summary>Live mites a tap since the care and how many were counted, of all plants together; null without a dry tap since.</summary>
    /// <param name="plants">The plants' taps.</param>
    /// <param name="window">The window.</param>
    /// <param name="options">Limits.</param>
    /// <param name="strikes">Number of strikes to which counts are brought.</param>
    public static (double Mean, double Counted)? SinceOf(IEnumerable<IReadOnlyList<HistoryTap>> plants, CareWindow window, VerdictOptions options, double strikes)
    {
        TapSum sum = TapSum.Of(plants.SelectMany(taps => Late(taps.Where(tap => IsDry(tap, options)), window, options)), strikes);
        return sum.Taps == 0 ? null : (sum.Mites / sum.Taps, sum.Mites);
    }

    private static bool IsDry(HistoryTap tap, VerdictOptions options) => tap.HoursSinceRinse is null || tap.HoursSinceRinse >= options.DryHours;

    private static IEnumerable<HistoryTap> Late(IEnumerable<HistoryTap> taps, CareWindow window, VerdictOptions options)
        => taps.Where(tap => tap.Day.DayNumber - window.FirstCare.DayNumber >= options.DaysUntilShown && tap.Day <= window.Until);

    private sealed record TapSum(double Mites, int Taps, int Days)
    {
        public static TapSum Of(IEnumerable<HistoryTap> taps, double strikes)
        {
            HistoryTap[] all = [.. taps];
            return new TapSum(all.Sum(tap => tap.LiveMites * (tap.Strikes is > 0 ? strikes / tap.Strikes.Value : 1)), all.Sum(tap => tap.Branches), all.Select(tap => tap.Day).Distinct().Count());
        }

        public static TapSum Of(List<TapSum> plants) => new(plants.Sum(p => p.Mites), plants.Sum(p => p.Taps), plants.Sum(p => p.Days));

        // Delta method on a negative binomial sum, and days that differ as a whole.
        public double LogVariance(VerdictOptions options)
            => (1 / (Mites + 0.5)) + (1 / (options.TapClumping * Taps)) + (options.TapDaySpread * options.TapDaySpread / Days);
    }
}
