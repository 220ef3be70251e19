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

    /// <summary>The tagged leaves that were photographed in both months; null for fewer than two.</summary>
    public required TaggedChange? Tagged { get; init; }

    /// <summary>Whether the word rests on the tagged leaves: there are as many of them as a month needs leaves.</summary>
    public required bool IsByTagged { get; init; }

    /// <summary>Smallest change of the mean that these samples could show (power 0.8); null when a month has fewer than two leaves that count.</summary>
    public required double? SmallestChange { get; init; }

    /// <summary>How many more leaves in each month would settle a change as large as the one seen; 0 when it is settled, null for "cannot say".</summary>
    public required int? MoreLeaves { get; init; }

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
    /// <param name="newRandom">Gives a fresh source of chance for each interval, so that a month has the range here that it has alone.</param>
    public static MonthComparison Of(IEnumerable<LeafOnRecord> leaves, Month from, Month to, TrendOptions? options, Func<Random> newRandom)
    {
        options = TrendOptions.OrUsual(options);
        if (from.FirstDay >= to.FirstDay)
        {
            throw new ArgumentException($"{from} does not lie before {to}.", nameof(from));
        }

        List<LeafOnRecord> all = [.. leaves];
        List<LeafOnRecord> earlierLeaves = [.. all.Where(leaf => from.Holds(leaf.WalkedOn))];
        List<LeafOnRecord> laterLeaves = [.. all.Where(leaf => to.Holds(leaf.WalkedOn))];
        LeafFigures earlier = LeafFigures.Of(earlierLeaves, options, newRandom());
        LeafFigures later = LeafFigures.Of(laterLeaves, options, newRandom());
        Interval? interval = null;
        WelchDifference? welch = null;
        TaggedChange? tagged = null;
        double? smallest = null;
        int? more = null;
        if (earlier.LeafCount >= 2 && later.LeafCount >= 2)
        {
            List<LeafOnRecord> first = [.. earlierLeaves.Where(leaf => LeafFigures.Counts(leaf, options))];
            List<LeafOnRecord> second = [.. laterLeaves.Where(leaf => LeafFigures.Counts(leaf, options))];
            welch = WelchDifference.Of([.. first.Select(leaf => leaf.Damage)], [.. second.Select(leaf => leaf.Damage)], options.Level);
            interval = IntervalOf(first, second, welch, options, newRandom());
            tagged = TaggedChange.Of(first, second, options.Level);
            (double before, double since) = (Sd(first), Sd(second));
            smallest = Statistics.SmallestChange.Of(before, first.Count, since, second.Count, options.Level);
            more = !interval.Value.Holds(0) ? 0
                : Statistics.SmallestChange.CountFor(welch.Difference, before, since, options.Level) is { } needed ? Math.Max(1, needed - Math.Min(first.Count, second.Count))
                : null;
        }

        string kind = all.Count > 0 ? all[0].Kind : "leaf";
        double? difference = later.Damage - earlier.Damage;
        bool isByTagged = tagged?.LeafCount >= options.LeavesLeast;
        (ChangeWord word, string because) = isByTagged
            ? ChangeWords.JudgeTagged(from, to, tagged!, options)
            : ChangeWords.Judge(from, to, earlier, later, difference, interval, options);
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
            Because = KindSentences.Of(kind, because),
            Tagged = tagged,
            IsByTagged = isByTagged,
            SmallestChange = smallest,
            MoreLeaves = more,
            Caution = KindSentences.Of(kind, ChangeWords.Caution(word, isByTagged)),
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

    private static double Sd(List<LeafOnRecord> leaves) => Math.Sqrt(Sample.Variance([.. leaves.Select(leaf => leaf.Damage)]));

    private static double Length(double first, double second) => Math.Sqrt((first * first) + (second * second));
}
