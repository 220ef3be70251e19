using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Bench;

/// <summary>Which way a figure is better.</summary>
public enum Better
{
    /// <summary>The higher the better.</summary>
    Higher,

    /// <summary>The lower the better.</summary>
    Lower,

    /// <summary>The nearer to zero the better.</summary>
    NearZero,

    /// <summary>The nearer to 0.9 the better.</summary>
    NearNinety,
}

/// <summary>One figure made from rows: the same function serves the value, its bootstrap interval and the comparison of runs.</summary>
/// <param name="Name">Name in the JSON document.</param>
/// <param name="Words">What it says, for the table.</param>
/// <param name="Better">Which way is better.</param>
/// <param name="Uses">Which rows it is made from.</param>
/// <param name="Value">The figure; not a number when it cannot be made.</param>
public sealed record Metric(string Name, string Words, Better Better, Func<PhotoRow, bool> Uses, Func<IReadOnlyList<PhotoRow>, double> Value)
{
    /// <summary>Names of the shares, in the order of tables.</summary>
    public static IReadOnlyList<string> ShareNames { get; } = ["stippled", "yellowed", "browned", "chewed", "damage"];

    /// <summary>All figures.</summary>
    public static IReadOnlyList<Metric> All { get; } = [.. Outline(), .. Specks(), .. ShareNames.SelectMany(Share), .. Doubt(), .. Marks()];

    /// <summary>Loss against the best possible: smaller is better whatever the figure is.</summary>
    public double Loss(double value) => Better switch
    {
        Better.Higher => -value,
        Better.Lower => value,
        Better.NearZero => Math.Abs(value),
        _ => Math.Abs(value - 0.9),
    };

    private static IEnumerable<Metric> Outline()
    {
        yield return new("refused", "photos not measured, share", Better.Lower, r => r.Kind != TruthKind.Browned, rows => rows.Average(r => r.Measured ? 0.0 : 1));
        yield return new("outlineIouMedian", "outline IoU, median (refused counts as 0)", Better.Higher, r => r.OutlineIou is not null, rows => Quantile(rows, 0.5));
        yield return new("outlineIouP10", "outline IoU, 10th percentile", Better.Higher, r => r.OutlineIou is not null, rows => Quantile(rows, 0.1));
        yield return new("leafCountRight", "photos with the right number of leaves, share", Better.Higher, r => r.LeavesTrue is not null, rows => rows.Average(r => r.LeavesTrue == r.LeavesFound ? 1.0 : 0));
    }

    private static IEnumerable<Metric> Specks()
    {
        yield return new("speckPrecision", "specks: precision", Better.Higher, r => r.Kind == TruthKind.Full && r.SpecksTrue is not null && r.Measured, rows => Ratio(Sum(rows, r => r.SpecksMatched), Sum(rows, r => r.SpecksFound)));
        yield return new("speckRecall", "specks: recall", Better.Higher, r => r.Kind == TruthKind.Full && r.SpecksTrue is not null && r.Measured, rows => Ratio(Sum(rows, r => r.SpecksMatched), Sum(rows, r => r.SpecksTrue!.Value)));
        yield return new("speckF1", "specks: F1, nearest pairs first", Better.Higher, r => r.Kind == TruthKind.Full && r.SpecksTrue is not null && r.Measured, rows => Ratio(2 * Sum(rows, r => r.SpecksMatched), Sum(rows, r => r.SpecksFound) + Sum(rows, r => r.SpecksTrue!.Value)));
        yield return new(
            "speckF1Most",
            "specks: F1 with as many pairs as can be made",
            Better.Higher,
            r => r.Kind == TruthKind.Full && r.SpecksTrue is not null && r.SpecksPairable is not null && r.Measured,
            rows => Ratio(2 * Sum(rows, r => r.SpecksPairable!.Value), Sum(rows, r => r.SpecksFound) + Sum(rows, r => r.SpecksTrue!.Value)));
        yield return new(
            "speckApartF1",
            "specks of which others cover less than 0.6: F1 (pairs with the rest left out)",
            Better.Higher,
            r => r.Kind == TruthKind.Full && r.SpecksByCover.Count > 0 && r.Measured,
            rows => Ratio(2 * Sum(rows, MatchedApart), Sum(rows, r => SpeckCover.Visible.Sum(c => r.SpecksByCover[c].Truth)) + Sum(rows, r => r.SpecksFound - r.SpecksMatched + MatchedApart(r))));
        yield return new("speckCountCcc", "specks: CCC of the count", Better.Higher, r => r.Kind == TruthKind.Full && r.SpecksTrue is not null && r.Measured, rows => Pairs(rows, r => r.SpecksFound, r => r.SpecksTrue!.Value, c => c.Ccc));
        yield return new("falseStipple", "measured stippled share of leaves without specks, mean", Better.Lower, r => r.SpecksTrue == 0 && r.Measured, rows => rows.Average(r => r.Shares["stippled"].Measured!.Value));
        yield return new("falseSpecks", "measured specks on leaves without, mean", Better.Lower, r => r.SpecksTrue == 0 && r.Measured, rows => rows.Average(r => (double)r.SpecksFound));
    }

    private static int MatchedApart(PhotoRow row) => SpeckCover.Visible.Sum(c => row.SpecksByCover[c].Matched);

    private static IEnumerable<Metric> Share(string name)
    {
        bool Uses(PhotoRow row) => (row.Measured || row.Kind == TruthKind.Browned) && row.Shares.TryGetValue(name, out SharePair? pair) && pair.Measured is not null;
        double Measured(PhotoRow row) => row.Shares[name].Measured!.Value;
        double Truth(PhotoRow row) => row.Shares[name].Truth;
        yield return new(name + "Ccc", $"{name}: CCC", Better.Higher, Uses, rows => Pairs(rows, Measured, Truth, c => c.Ccc));
        yield return new(name + "R", $"{name}: r (precision part)", Better.Higher, Uses, rows => Pairs(rows, Measured, Truth, c => c.PearsonR));
        yield return new(name + "Cb", $"{name}: Cb (bias part)", Better.Higher, Uses, rows => Pairs(rows, Measured, Truth, c => c.Cb));
        yield return new(name + "Bias", $"{name}: bias, measured minus true", Better.NearZero, Uses, rows => rows.Average(r => Measured(r) - Truth(r)));
        yield return new(name + "LimitLow", $"{name}: lower limit of agreement (1.96 sd)", Better.NearZero, Uses, rows => Limits(rows, Measured, Truth).Lower);
        yield return new(name + "LimitHigh", $"{name}: upper limit of agreement (1.96 sd)", Better.NearZero, Uses, rows => Limits(rows, Measured, Truth).Upper);
        yield return new(name + "Mae", $"{name}: mean absolute error", Better.Lower, Uses, rows => rows.Average(r => Math.Abs(Measured(r) - Truth(r))));
    }

    private static IEnumerable<Metric> Doubt()
    {
        yield return new(
            "intervalCoverage",
            "90 % intervals of damage that hold the truth, share",
            Better.NearNinety,
            r => r.DamageLow is not null,
            rows => rows.Average(r => r.Shares["damage"].Truth >= r.DamageLow - 1e-9 && r.Shares["damage"].Truth <= r.DamageHigh + 1e-9 ? 1.0 : 0));
        yield return new("intervalWidth", "width of these intervals, mean", Better.Lower, r => r.DamageLow is not null, rows => rows.Average(r => r.DamageHigh!.Value - r.DamageLow!.Value));
    }

    private static IEnumerable<Metric> Marks()
    {
        static bool Uses(PhotoRow row) => row.Marks is not null;
        yield return new("closeUpRefused", "close-ups that a user would see refused, share (below the whole photo is given as leaf)", Better.Lower, r => r.Kind == TruthKind.Browned, rows => rows.Average(r => r.Measured ? 0.0 : 1));
        yield return new("marksIou", "brown tissue: IoU with what at least two of three people marked, mean", Better.Higher, Uses, rows => rows.Average(r => r.Marks!.Ours));
        yield return new("marksIouPooled", "the same, pixels of all photos together", Better.Higher, Uses, rows => Ratio(rows.Sum(r => (double)r.Marks!.OursBothPx), rows.Sum(r => (double)r.Marks!.OursEitherPx)));
        yield return new("peopleIouAny", "people among themselves: IoU of at least two with any of three, mean", Better.Higher, Uses, rows => rows.Average(r => r.Marks!.TwoWithAny));
        yield return new("peopleIouAll", "people among themselves: IoU of at least two with all three, mean", Better.Higher, Uses, rows => rows.Average(r => r.Marks!.TwoWithAll));
        yield return new("marksArea", "brown area found over area that at least two marked, less 1, all photos together", Better.NearZero, Uses, rows => Ratio(rows.Sum(r => (double)r.Marks!.FoundPx), rows.Sum(r => (double)r.Marks!.TwoPx)) - 1);
        yield return new("marksAreaError", "error of the brown area as a share of the area marked, mean of photos", Better.Lower, Uses, rows => rows.Average(r => r.Marks!.AreaError(r.Marks.FoundPx)));
        yield return new("peopleAreaErrorAny", "the same if any one person's mark counted", Better.Lower, Uses, rows => rows.Average(r => r.Marks!.AreaError(r.Marks.AnyPx)));
        yield return new("peopleAreaErrorAll", "the same if only what all three marked counted", Better.Lower, Uses, rows => rows.Average(r => r.Marks!.AreaError(r.Marks.AllPx)));
    }

    private static double Quantile(IReadOnlyList<PhotoRow> rows, double share)
    {
        double[] values = [.. rows.Select(r => r.OutlineIou!.Value).Order()];
        return Sample.Quantile(values, share);
    }

    private static double Sum(IReadOnlyList<PhotoRow> rows, Func<PhotoRow, int> value) => rows.Sum(r => (double)value(r));

    private static double Ratio(double part, double whole) => whole > 0 ? part / whole : double.NaN;

    private static double Pairs(IReadOnlyList<PhotoRow> rows, Func<PhotoRow, double> measured, Func<PhotoRow, double> truth, Func<Concordance, double> part)
    {
        if (rows.Count < 2)
        {
            return double.NaN;
        }

        // Where the truth does not vary there is nothing to agree with: no figure is better than a zero that reads as bad.
        Concordance concordance = Concordance.Of([.. rows.Select(measured)], [.. rows.Select(truth)]);
        return double.IsFinite(concordance.PearsonR) || concordance.Ccc == 1 ? part(concordance) : double.NaN;
    }

    private static (double Lower, double Upper) Limits(IReadOnlyList<PhotoRow> rows, Func<PhotoRow, double> measured, Func<PhotoRow, double> truth)
        => rows.Count < 2 ? (double.NaN, double.NaN) : BlandAltman.Of([.. rows.Select(measured)], [.. rows.Select(truth)]).Limits();
}
