namespace LeafScan.Trends.Statistics;

/// <summary>Mean and spread of a few numbers.</summary>
internal static class Sample
{
    public static double Mean(IReadOnlyList<double> values)
    {
        double sum = 0;
        for (int i = 0; i < values.Count; i++)
        {
            sum += values[i];
        }

        return sum / values.Count;
    }

    /// <summary>Sum of squared distances from the mean.</summary>
    public static double SquaresAboutMean(IReadOnlyList<double> values, double mean)
    {
        double sum = 0;
        for (int i = 0; i < values.Count; i++)
        {
            double distance = values[i] - mean;
            sum += distance * distance;
        }

        return sum;
    }

    /// <summary>Variance with divisor n - 1; not a number for fewer than two values.</summary>
    public static double Variance(IReadOnlyList<double> values)
        => values.Count < 2 ? double.NaN : SquaresAboutMean(values, Mean(values)) / (values.Count - 1);

    /// <summary>
    /// Quantile of sorted values, linear between neighbours (type 7 of Hyndman and Fan 1996, The American
    /// Statistician 50:361-365).
    /// </summary>
    public static double Quantile(double[] sorted, double share)
    {
        double at = share * (sorted.Length - 1);
        int below = (int)Math.Floor(at);
        int above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((at - below) * (sorted[above] - sorted[below]));
    }
}
