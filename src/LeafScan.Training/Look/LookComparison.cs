using System.Globalization;
using System.Text;
using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Look;

/// <summary>
/// Rendered leaves beside real ones. A figure agrees when the middle rendered leaf lies between the 10th and the 90th
/// percentile of the real ones, and at least half of the rendered leaves lie between the smallest and the largest real one.
/// Bounds chosen by us: wide enough for other hosts and cameras, narrow enough to fail what looks painted.
/// </summary>
/// <param name="Name">Name of the figure.</param>
/// <param name="Words">What it says.</param>
/// <param name="Rendered">10th, 50th and 90th percentile of the rendered leaves.</param>
/// <param name="Real">The same of the real ones.</param>
/// <param name="InsideShare">Share of rendered leaves within the range of the real ones.</param>
/// <param name="RenderedCount">Rendered leaves.</param>
/// <param name="RealCount">Real leaves.</param>
public sealed record LookComparison(
    string Name, string Words, IReadOnlyList<double> Rendered, IReadOnlyList<double> Real, double InsideShare, int RenderedCount, int RealCount)
{
    /// <summary>Whether it agrees, as defined above.</summary>
    public bool Agrees => Rendered[1] >= Real[0] && Rendered[1] <= Real[2] && InsideShare >= 0.5;

    /// <summary>Compares all figures that both sides have.</summary>
    public static IReadOnlyList<LookComparison> Of(IReadOnlyList<LeafLook> rendered, IReadOnlyList<LeafLook> real)
    {
        List<LookComparison> all = [];
        foreach ((string name, string words) in LeafLook.Names)
        {
            double[] ours = Sorted(rendered, name);
            double[] theirs = Sorted(real, name);
            if (ours.Length >= 3 && theirs.Length >= 3)
            {
                double inside = ours.Count(v => v >= theirs[0] && v <= theirs[^1]) / (double)ours.Length;
                all.Add(new LookComparison(name, words, Three(ours), Three(theirs), inside, ours.Length, theirs.Length));
            }
        }

        return all;
    }

    /// <summary>A table in Markdown.</summary>
    public static string Table(IReadOnlyList<LookComparison> all)
    {
        StringBuilder text = new("| figure | rendered p10 / p50 / p90 | real p10 / p50 / p90 | inside the real range | agrees |\n| --- | --- | --- | ---: | --- |\n");
        foreach (LookComparison one in all)
        {
            text.Append(CultureInfo.InvariantCulture, $"| {one.Words} | {Text(one.Rendered)} ({one.RenderedCount}) | {Text(one.Real)} ({one.RealCount}) | {one.InsideShare:0.00} | {(one.Agrees ? "yes" : "no")} |\n");
        }

        return text.ToString();
    }

    private static string Text(IReadOnlyList<double> values) => string.Join(" / ", values.Select(v => v.ToString("0.00", CultureInfo.InvariantCulture)));

    private static double[] Sorted(IReadOnlyList<LeafLook> looks, string name)
        => [.. looks.Where(l => l.Values.ContainsKey(name)).Select(l => l.Values[name]).Order()];

    private static double[] Three(double[] sorted) => [Sample.Quantile(sorted, 0.1), Sample.Quantile(sorted, 0.5), Sample.Quantile(sorted, 0.9)];
}
