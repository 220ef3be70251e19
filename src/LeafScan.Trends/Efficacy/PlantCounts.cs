using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Efficacy;

/// <summary>Live mites on one plant before and after a treatment.</summary>
/// <param name="Before">Mites before, 0 or more.</param>
/// <param name="After">Mites after, 0 or more.</param>
public readonly record struct PlantCount(double Before, double After);

/// <summary>Henderson-Tilton over several plants a side, with an interval over plants, because taps of one plant are not independent.</summary>
public static class PlantCounts
{
    /// <summary>
    /// Efficacy of the mean counts; its interval by drawing plants again on both sides. There is no interval with fewer than
    /// two plants a side, or when more than one in twenty redrawn samples has no defined efficacy.
    /// </summary>
    /// <param name="untreated">Check plants, at least one.</param>
    /// <param name="treated">Treated plants, at least one.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    /// <param name="random">Source of chance.</param>
    /// <param name="resamples">How often plants are drawn again, at least 100.</param>
    public static EfficacyResult HendersonTilton(
        IReadOnlyList<PlantCount> untreated, IReadOnlyList<PlantCount> treated, double level, Random random, int resamples = Bootstrap.UsualResamples)
    {
        Interval.CheckLevel(level);
        ArgumentOutOfRangeException.ThrowIfLessThan(untreated.Count, 1, nameof(untreated));
        ArgumentOutOfRangeException.ThrowIfLessThan(treated.Count, 1, nameof(treated));
        ArgumentOutOfRangeException.ThrowIfLessThan(resamples, 100);
        EfficacyResult whole = OfMeans(untreated, treated);
        if (whole.Share is null || Math.Min(untreated.Count, treated.Count) < 2)
        {
            return whole;
        }

        List<double> shares = new(resamples);
        for (int round = 0; round < resamples; round++)
        {
            if (OfMeans(Drawn(untreated, random), Drawn(treated, random)).Share is { } share)
            {
                shares.Add(share);
            }
        }

        if (shares.Count < 0.95 * resamples)
        {
            return whole;
        }

        double[] sorted = [.. shares.Order()];
        double tail = (1 - level) / 2;
        return whole with { Interval = new Interval(Sample.Quantile(sorted, tail), Sample.Quantile(sorted, 1 - tail), level) };
    }

    private static EfficacyResult OfMeans(IReadOnlyList<PlantCount> untreated, IReadOnlyList<PlantCount> treated) => LiveCounts.HendersonTilton(
        untreated.Average(plant => plant.Before), untreated.Average(plant => plant.After), treated.Average(plant => plant.Before), treated.Average(plant => plant.After));

    private static PlantCount[] Drawn(IReadOnlyList<PlantCount> plants, Random random)
    {
        var drawn = new PlantCount[plants.Count];
        for (int i = 0; i < drawn.Length; i++)
        {
            drawn[i] = plants[random.Next(plants.Count)];
        }

        return drawn;
    }
}
