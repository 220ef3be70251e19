using System.Globalization;

namespace LeafScan.Training.Bench.Taps;

/// <summary>Figures over many pairs.</summary>
/// <param name="Scores">One a pair.</param>
public sealed record TapTotals(IReadOnlyList<TapScore> Scores)
{
    private IEnumerable<TapScore> Measured => Scores.Where(s => s.Refused is null);

    /// <summary>Walkers found and right, over all pairs together: 2 TP / (2 TP + FP + FN); refused pairs count as missed.</summary>
    public double F1
    {
        get
        {
            double right = Measured.Sum(s => s.Found);
            double wrong = Measured.Sum(s => s.False);
            double missed = Scores.Sum(s => s.Walkers) - right;
            return right + wrong + missed == 0 ? 1 : 2 * right / ((2 * right) + wrong + missed);
        }
    }

    /// <summary>Share of walkers found.</summary>
    public double Recall => Ratio(Measured.Sum(s => s.Found), Scores.Sum(s => s.Walkers));

    /// <summary>Things called mites that are none.</summary>
    public int False => Measured.Sum(s => s.False);

    /// <summary>Specks of which one is called a mite by mistake; infinite when none is.</summary>
    public double SpecksPerFalse => Measured.Sum(s => (double)s.Debris) / False;

    /// <summary>Share of measured pairs whose interval holds the truth.</summary>
    public double Coverage => Ratio(Measured.Count(s => s.Covered), Measured.Count());

    /// <summary>The same over pairs with walkers only.</summary>
    public double CoverageWithWalkers => Ratio(Measured.Count(s => s.Covered && s.Walkers > 0), Measured.Count(s => s.Walkers > 0));

    /// <summary>Median width of the interval over the count, pairs with walkers only.</summary>
    public double Width => Middle(Measured.Where(s => s.Walkers > 0).Select(s => (s.High - s.Low) / (double)s.Walkers), 0.5);

    /// <summary>Median error of lining up, pixels.</summary>
    public double AlignmentMedian => Middle(Measured.Select(s => s.AlignmentErrorPx), 0.5);

    /// <summary>The 95th percentile of it.</summary>
    public double AlignmentWorst => Middle(Measured.Select(s => s.AlignmentErrorPx), 0.95);

    /// <summary>Pairs that were refused.</summary>
    public int Refused => Scores.Count(s => s.Refused is not null);

    /// <summary>Median of the time that reading takes over that of opening both photos.</summary>
    public double ReadingToOpening => Middle(Measured.Select(s => s.ReadMs / s.DecodeMs), 0.5);

    /// <summary>One line of figures.</summary>
    public string Line() => string.Create(CultureInfo.InvariantCulture,
        $"pairs {Scores.Count}, refused {Refused}, walkers {Scores.Sum(s => s.Walkers)}, F1 {F1:0.000}, recall {Recall:0.000}, false {False} of {Measured.Sum(s => s.Debris)} specks, "
        + $"coverage {Coverage:0.00} (with walkers {CoverageWithWalkers:0.00}, width {Width:0.00}), alignment px median {AlignmentMedian:0.00}, 95 % {AlignmentWorst:0.00}, "
        + $"reading / opening {ReadingToOpening:0.00} ({Middle(Measured.Select(s => s.ReadMs), 0.5):0} ms), predators said {Measured.Sum(s => s.PredatorsSaid)} of {Scores.Sum(s => s.Predators)}");

    private static double Ratio(double part, double whole) => whole == 0 ? 1 : part / whole;

    private static double Middle(IEnumerable<double> values, double share)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length == 0 ? double.NaN : sorted[(int)Math.Min(sorted.Length - 1, share * sorted.Length)];
    }
}
