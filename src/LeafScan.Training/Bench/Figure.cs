using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Bench;

/// <summary>A figure with its bootstrap interval.</summary>
/// <param name="Metric">Name of the metric.</param>
/// <param name="Photos">From how many photos.</param>
/// <param name="Value">The figure; null when it cannot be made.</param>
/// <param name="Low">Lower end of the 95 % interval, by drawing photos again; null for fewer than five photos.</param>
/// <param name="High">Upper end.</param>
public sealed record Figure(string Metric, int Photos, double? Value, double? Low, double? High)
{
    private const int FewestForInterval = 5;

    /// <summary>Makes the figure from the rows that the metric uses.</summary>
    /// <param name="metric">The metric.</param>
    /// <param name="rows">All rows of a group.</param>
    /// <param name="seed">Seed of the bootstrap.</param>
    public static Figure Of(Metric metric, IReadOnlyList<PhotoRow> rows, int seed)
    {
        PhotoRow[] used = [.. rows.Where(metric.Uses)];
        if (used.Length == 0)
        {
            return new Figure(metric.Name, 0, null, null, null);
        }

        double? value = Known(metric.Value(used));
        if (used.Length < FewestForInterval || value is null)
        {
            return new Figure(metric.Name, used.Length, value, null, null);
        }

        var drawn = new PhotoRow[used.Length];
        Interval interval = Bootstrap.PercentileOf(
            used.Length,
            places =>
            {
                for (int i = 0; i < drawn.Length; i++)
                {
                    drawn[i] = used[places[i]];
                }

                // A draw in which nothing varies has no correlation; it counts as the figure itself.
                double again = metric.Value(drawn);
                return double.IsFinite(again) ? again : value.Value;
            },
            0.95,
            new Random(seed),
            600);
        return new Figure(metric.Name, used.Length, value, interval.Low, interval.High);
    }

    private static double? Known(double value) => double.IsFinite(value) ? value : null;
}

/// <summary>The figures of some photos that belong together.</summary>
/// <param name="Name">all, or set, difficulty or background.</param>
/// <param name="Photos">Number of photos.</param>
/// <param name="Figures">The figures that could be made.</param>
public sealed record FigureGroup(string Name, int Photos, IReadOnlyList<Figure> Figures)
{
    /// <summary>The figure of a metric, or null.</summary>
    public Figure? this[string metric] => Figures.FirstOrDefault(f => f.Metric == metric);
}

/// <summary>Recall of specks of one class.</summary>
/// <param name="Size">Class of the true diameter in pixels, or of the share that other specks cover.</param>
/// <param name="Specks">True specks.</param>
/// <param name="Recall">Share found.</param>
/// <param name="Low">Lower end of Wilson's 95 % interval; too narrow where specks of one photo are alike.</param>
/// <param name="High">Upper end.</param>
public sealed record SizeFigure(string Size, int Specks, double Recall, double Low, double High);
