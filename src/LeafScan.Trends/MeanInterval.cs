using LeafScan.Trends.Statistics;

namespace LeafScan.Trends;

/// <summary>Damage of one thing, a leaf or a plant, as it was measured.</summary>
/// <param name="Value">Damage, 0..1.</param>
/// <param name="Low">Lower end of what it may be by the error of measuring.</param>
/// <param name="High">Upper end.</param>
internal readonly record struct MeasuredDamage(double Value, double Low, double High);

/// <summary>
/// Interval of a mean of things that were each measured with an error of their own: by drawing the things again
/// (<see cref="Bootstrap.Mean"/>), never narrower than the mean of their own intervals, because light and threshold err alike on all of
/// a walk, and for fewer than five never narrower than Student's (<see cref="StudentMean"/>). The one rule for leaves of a plant, plants
/// of a group and plants of a block.
/// </summary>
internal static class MeanInterval
{
    /// <summary>The interval; of a single thing its own, null of nothing.</summary>
    public static Interval? Of(IReadOnlyList<MeasuredDamage> things, TrendOptions options, Random random)
    {
        if (things.Count == 0)
        {
            return null;
        }

        double low = things.Average(thing => thing.Low);
        double high = things.Average(thing => thing.High);
        if (things.Count == 1)
        {
            return new Interval(low, high, options.Level);
        }

        double[] values = [.. things.Select(thing => thing.Value)];
        Interval drawn = Bootstrap.Mean(values, options.Level, random, options.Resamples).Cover(low, high);
        if (values.Length < StudentMean.FewValues)
        {
            Interval student = StudentMean.Of(values, options.Level);
            drawn = drawn.Cover(student.Low, student.High);
        }

        return new Interval(Math.Max(0, drawn.Low), Math.Min(1, drawn.High), options.Level);
    }
}
