using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Bench;

/// <summary>How one figure changed between two runs over the same photos.</summary>
/// <param name="Metric">The metric.</param>
/// <param name="Photos">Photos that both runs have.</param>
/// <param name="Before">Figure of the old run on these photos.</param>
/// <param name="After">Figure of the new run.</param>
/// <param name="Verdict">worse, better or alike: by whether the 95 % interval of the change leaves zero.</param>
public sealed record FigureChange(Metric Metric, int Photos, double Before, double After, string Verdict);

/// <summary>Compares two runs photo by photo: the photos are drawn again in pairs, so that hard photos do not blur the change.</summary>
public static class RunComparison
{
    private const int Seed = 20260803;

    /// <summary>Changes of all figures, what got worse first.</summary>
    public static IReadOnlyList<FigureChange> Of(BenchDocument before, BenchDocument after)
    {
        Dictionary<string, PhotoRow> old = before.Photos.GroupBy(r => r.Key).ToDictionary(g => g.Key, g => g.First());
        (PhotoRow Old, PhotoRow New)[] both = [.. after.Photos.Where(r => old.ContainsKey(r.Key)).Select(r => (old[r.Key], r))];
        return [.. Metric.All.Select(m => Change(m, both)).OfType<FigureChange>().OrderBy(c => c.Verdict switch { "worse" => 0, "better" => 1, _ => 2 })];
    }

    private static FigureChange? Change(Metric metric, (PhotoRow Old, PhotoRow New)[] both)
    {
        (PhotoRow Old, PhotoRow New)[] used = [.. both.Where(p => metric.Uses(p.Old) && metric.Uses(p.New))];
        if (used.Length < 2)
        {
            return null;
        }

        double before = metric.Value([.. used.Select(p => p.Old)]);
        double after = metric.Value([.. used.Select(p => p.New)]);
        if (!double.IsFinite(before) || !double.IsFinite(after))
        {
            return null;
        }

        var oldDrawn = new PhotoRow[used.Length];
        var newDrawn = new PhotoRow[used.Length];
        Interval change = Bootstrap.PercentileOf(
            used.Length,
            places =>
            {
                for (int i = 0; i < used.Length; i++)
                {
                    oldDrawn[i] = used[places[i]].Old;
                    newDrawn[i] = used[places[i]].New;
                }

                double step = metric.Loss(metric.Value(newDrawn)) - metric.Loss(metric.Value(oldDrawn));
                return double.IsFinite(step) ? step : 0;
            },
            0.95,
            new Random(Seed),
            600);
        string verdict = change.Low > 0 ? "worse" : change.High < 0 ? "better" : "alike";
        return new FigureChange(metric, used.Length, before, after, verdict);
    }
}
