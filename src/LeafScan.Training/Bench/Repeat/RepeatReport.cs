using System.Globalization;
using System.Text;
using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Bench.Repeat;

/// <summary>Writes how far readings of one leaf lie apart, as Markdown.</summary>
internal static class RepeatReport
{
    private const int Seed = 20260903;

    /// <summary>A table of sets, and one of the leaves whose readings differ most.</summary>
    /// <param name="leaves">The leaves.</param>
    /// <param name="worst">How many single leaves to list, least steady first.</param>
    public static string Tables(IReadOnlyList<LeafRepeat> leaves, int worst = 10)
    {
        StringBuilder text = new();
        text.Append("Standard deviation over the shots of one leaf, pooled over leaves (root of the mean of variances); in brackets the 95 % interval by drawing leaves again. \"Shift\" is the mean of a leaf's shots less the reading of the photo itself, mean over leaves. \"Outlined\" leaves out shots whose outline overlaps the truth by less than 0.9 (IoU): what differs then is the judging of tissue. \"Shown\" is the true damage as the shots themselves show it: a tilted camera makes the nearer end of a leaf larger. \"Less shown\" is the reading less that: what is left is the measuring.\n\n");
        text.Append("| photos | leaves | shots | refused | outline IoU under 0.9 | damage, points | shown, points | less shown, points | outlined: damage, points | stippled, points | specks | specks, median leaf, share of its mean | median leaf's damage, points | shift of damage, points |\n");
        text.Append("| --- | ---: | ---: | ---: | ---: | --- | ---: | --- | --- | ---: | ---: | ---: | ---: | ---: |\n");
        IGrouping<string, LeafRepeat>[] sets = [.. leaves.GroupBy(l => l.Set)];
        if (sets.Length > 1)
        {
            Line(text, "all", leaves);
        }

        foreach (IGrouping<string, LeafRepeat> set in sets)
        {
            Line(text, set.Key, [.. set]);
        }

        text.Append("\nLeast steady leaves:\n\n| photo | damage true | read from the photo | mean of shots | standard deviation, points | shown, points | specks, mean | their standard deviation | outline IoU, least |\n| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n");
        foreach (LeafRepeat leaf in leaves.Where(l => double.IsFinite(l.DamageSd)).OrderByDescending(l => l.DamageSd).Take(worst))
        {
            text.Append(CultureInfo.InvariantCulture,
                $"| {leaf.Key} | {Percent(leaf.TrueDamage)} | {Percent(leaf.Itself?.Damage)} | {Percent(leaf.DamageMean)} | {100 * leaf.DamageSd:0.00} | {Points(LeafRepeat.Pooled([leaf], s => s.DamageShown))} | {leaf.SpecksMean:0} | {leaf.SpecksSd:0} | {leaf.Shots.Min(s => s.OutlineIou):0.000} |\n");
        }

        return text.ToString();
    }

    private static void Line(StringBuilder text, string name, IReadOnlyList<LeafRepeat> leaves)
    {
        LeafRepeat[] steady = [.. leaves.Where(l => l.Shots.Count > 1)];
        int lost = leaves.Sum(l => l.Shots.Count - l.Outlined().Shots.Count);
        double[] relative = [.. steady.Where(l => l.SpecksMean >= 20).Select(l => l.SpecksSd / l.SpecksMean).Order()];
        double[] single = [.. steady.Select(l => l.DamageSd).Order()];
        double[] shifts = [.. steady.Where(l => l.Itself is not null).Select(l => l.DamageMean - l.Itself!.Damage)];
        text.Append(CultureInfo.InvariantCulture,
            $"| {name} | {leaves.Count} | {leaves.Sum(l => l.Shots.Count)} | {leaves.Sum(l => l.Refused)} | {lost} | {Pooled(leaves, s => s.Damage)} | {Points(LeafRepeat.Pooled(leaves, s => s.DamageShown))} | {Pooled(leaves, s => s.Damage - s.DamageShown)} | {Pooled([.. leaves.Select(l => l.Outlined())], s => s.Damage)} | {100 * LeafRepeat.Pooled(leaves, s => s.Stippled):0.00} | {LeafRepeat.Pooled(leaves, s => s.Specks):0} | {(relative.Length == 0 ? "-" : Percent(Sample.Quantile(relative, 0.5)))} | {(single.Length == 0 ? double.NaN : 100 * Sample.Quantile(single, 0.5)):0.00} | {(shifts.Length == 0 ? double.NaN : 100 * shifts.Average()):+0.00;-0.00} |\n");
    }

    private static string Pooled(IReadOnlyList<LeafRepeat> leaves, Func<ShotReading, double> of)
    {
        LeafRepeat[] steady = [.. leaves.Where(l => l.Shots.Count > 1)];
        string value = Points(LeafRepeat.Pooled(steady, of));
        if (steady.Length < 5)
        {
            return value;
        }

        Interval drawn = Bootstrap.PercentileOf(
            steady.Length, places => LeafRepeat.Pooled([.. places.Select(p => steady[p])], of), 0.95, new Random(Seed), 600);
        return $"{value} ({Points(drawn.Low)} to {Points(drawn.High)})";
    }

    private static string Points(double share) => double.IsFinite(share) ? (100 * share).ToString("0.00", CultureInfo.InvariantCulture) : "-";

    private static string Percent(double? share) => share is { } s ? (100 * s).ToString("0.0", CultureInfo.InvariantCulture) + " %" : "-";
}
