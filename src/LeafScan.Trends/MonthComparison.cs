using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends;

/// <summary>What a comparison says, in a word.</summary>
public enum ChangeWord
{
    /// <summary>The leaves that were photographed are less damaged.</summary>
    Better,

    /// <summary>The leaves that were photographed are more damaged.</summary>
    Worse,

    /// <summary>Surely no change that matters.</summary>
    Same,

    /// <summary>The leaves do not allow an answer.</summary>
    CannotTell,
}

/// <summary>One plant in one month beside the same plant in another. Leaves of all walks in a month are taken together.</summary>
public sealed record MonthComparison
{
    /// <summary>The earlier month.</summary>
    public required Month From { get; init; }

    /// <summary>The later month.</summary>
    public required Month To { get; init; }

    /// <summary>The leaves of the earlier month.</summary>
    public required LeafFigures Earlier { get; init; }

    /// <summary>The leaves of the later month.</summary>
    public required LeafFigures Later { get; init; }

    /// <summary>Mean damage later minus earlier, -1..1; above 0 is more damage. Null when a month has no leaf that counts.</summary>
    public required double? Difference { get; init; }

    /// <summary>
    /// Interval of <see cref="Difference"/>: by drawing the leaves of both months again, never narrower than the leaves' own
    /// intervals allow and, for fewer than five leaves in a month, than Welch's. Null when a month has fewer than two leaves that count.
    /// </summary>
    public required Interval? DifferenceInterval { get; init; }

    /// <summary>Welch's t interval of the same difference, as a check on the drawing; null as above.</summary>
    public required WelchDifference? Welch { get; init; }

    /// <summary>The answer in a word.</summary>
    public required ChangeWord Word { get; init; }

    /// <summary>The reason, with the figures, one or two sentences.</summary>
    public required string Because { get; init; }

    /// <summary>What the answer does not prove.</summary>
    public required string Caution { get; init; }

    /// <summary>Compares two months of one plant.</summary>
    /// <param name="leaves">Leaves of one plant; those of other months are passed over.</param>
    /// <param name="from">The earlier month.</param>
    /// <param name="to">The later month.</param>
    /// <param name="options">How; null for the defaults.</param>
    /// <exception cref="ArgumentException"><paramref name="from"/> does not lie before <paramref name="to"/>, or an option is out of range.</exception>
    /// <param name="random">Source of chance; a fresh one of the same seed gives the same interval.</param>
    public static MonthComparison Of(IEnumerable<LeafOnRecord> leaves, Month from, Month to, TrendOptions? options, Random random)
    {
        options = (options ?? new TrendOptions()).Checked();
        if (from.FirstDay >= to.FirstDay)
        {
            throw new ArgumentException($"{from} does not lie before {to}.", nameof(from));
        }

        List<LeafOnRecord> all = [.. leaves];
        List<LeafOnRecord> earlierLeaves = [.. all.Where(leaf => from.Holds(leaf.WalkedOn))];
        List<LeafOnRecord> laterLeaves = [.. all.Where(leaf => to.Holds(leaf.WalkedOn))];
        LeafFigures earlier = LeafFigures.Of(earlierLeaves, options, random);
        LeafFigures later = LeafFigures.Of(laterLeaves, options, random);
        Interval? interval = null;
        WelchDifference? welch = null;
        if (earlier.LeafCount >= 2 && later.LeafCount >= 2)
        {
            List<LeafOnRecord> first = [.. earlierLeaves.Where(leaf => LeafFigures.Counts(leaf, options))];
            List<LeafOnRecord> second = [.. laterLeaves.Where(leaf => LeafFigures.Counts(leaf, options))];
            welch = WelchDifference.Of([.. first.Select(leaf => leaf.Damage)], [.. second.Select(leaf => leaf.Damage)], options.Level);
            interval = IntervalOf(first, second, welch, options, random);
        }

        double? difference = later.Damage - earlier.Damage;
        (ChangeWord word, string because) = ChangeWords.Judge(from, to, earlier, later, difference, interval, options);
        return new MonthComparison
        {
            From = from,
            To = to,
            Earlier = earlier,
            Later = later,
            Difference = difference,
            DifferenceInterval = interval,
            Welch = welch,
            Word = word,
            Because = because,
            Caution = ChangeWords.Caution(word),
        };
    }

    private static Interval IntervalOf(List<LeafOnRecord> first, List<LeafOnRecord> second, WelchDifference welch, TrendOptions options, Random random)
    {
        Interval drawn = Bootstrap.MeanDifference(
            [.. first.Select(leaf => leaf.Damage)], [.. second.Select(leaf => leaf.Damage)], options.Level, random, options.Resamples);
        if (Math.Min(first.Count, second.Count) < StudentMean.FewValues)
        {
            drawn = drawn.Cover(welch.Interval.Low, welch.Interval.High);
        }

        // The errors of the two months are taken as independent of each other, those within a month as shared.
        double difference = second.Average(leaf => leaf.Damage) - first.Average(leaf => leaf.Damage);
        double downwards = Length(second.Average(leaf => leaf.Damage - leaf.DamageLow), first.Average(leaf => leaf.DamageHigh - leaf.Damage));
        double upwards = Length(second.Average(leaf => leaf.DamageHigh - leaf.Damage), first.Average(leaf => leaf.Damage - leaf.DamageLow));
        return drawn.Cover(difference - downwards, difference + upwards);
    }

    private static double Length(double first, double second) => Math.Sqrt((first * first) + (second * second));
}
