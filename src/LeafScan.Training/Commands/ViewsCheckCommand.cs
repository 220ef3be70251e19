using System.CommandLine;
using System.Globalization;
using LeafScan.Leaves.Views;
using LeafScan.Photos.Pictures;
using LeafScan.Training.Bench.Foliage;
using LeafScan.Training.Rendering;
using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Commands;

/// <summary>views-check: how well two photos of a whole plant are lined up, and what is said of its change.</summary>
internal static class ViewsCheckCommand
{
    public static Command Build()
    {
        SeriesOptions options = new();
        Command command = new("views-check", "Renders plants twice from slightly different places, every second one unchanged, lines the photos up and prints how close the changes come. Neighbouring pairs are crossed: these must be refused.");
        options.AddTo(command);
        command.SetAction((parsed, cancel) =>
        {
            (int count, int seed, Difficulty level, string folder, int size) = options.Read(parsed);
            List<TwoViews> all = [];
            for (int i = 0; i < count; i++)
            {
                cancel.ThrowIfCancellationRequested();
                TwoViews two = TwoViews.Make(seed + i, level, i % 2 == 0, size, folder, cancel);
                all.Add(two);
                if (two.Comparison?.Picture is { } picture)
                {
                    PictureWriter.WriteJpeg(picture, Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"change-{seed + i}.jpg")));
                }

                Console.Out.WriteLine(Line(seed + i, two));
            }

            Totals(all);
            all.ForEach(two => two.Dispose());
            Crossed(folder, cancel);
            return Task.FromResult(0);
        });
        return command;
    }

    private static string Line(int seed, TwoViews two) => two.Comparison is not { } c ? $"{seed} not measured"
        : c.Change is not { } change ? $"{seed} refused: {c.Refusal!.Value.Reason}"
        : string.Create(CultureInfo.InvariantCulture, $"{seed} {(two.Changed ? "changed" : "same")}, {change.AgreeingPlaces} places, overlap {change.Overlap:0.00}: discoloured {Row(change.Sectors, s => s.Discoloured)} true {Row(two.Truth, s => s.Discoloured)}; gaps {Row(change.Sectors, s => s.Thinning)} true {Row(two.Truth, s => s.Thinning)}");

    private static string Row(IEnumerable<SectorChange> sectors, Func<SectorChange, double?> of)
        => string.Join(' ', sectors.OrderBy(s => s.Side, StringComparer.Ordinal).ThenBy(s => s.Height, StringComparer.Ordinal).Select(s => (of(s) ?? double.NaN).ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture)));

    private static void Totals(List<TwoViews> all)
    {
        TwoViews[] lined = [.. all.Where(two => two.Comparison?.Change is not null)];
        Console.Out.WriteLine($"lined up: {lined.Length} of {all.Count}");
        (SectorChange Said, SectorChange True, bool Changed)[] pairs =
            [.. lined.SelectMany(two => two.Comparison!.Change!.Sectors.Join(two.Truth, s => (s.Side, s.Height), t => (t.Side, t.Height), (s, t) => (s, t, two.Changed)))];
        if (pairs.Length < 12)
        {
            return;
        }

        Print("discoloured, sectors", [.. pairs.Select(p => (p.Said.Discoloured ?? 0, p.True.Discoloured ?? 0))]);
        Print("gaps, sectors", [.. pairs.Select(p => (p.Said.Thinning, p.True.Thinning))]);
        (SectorChange Said, SectorChange True, bool Changed)[] same = [.. pairs.Where(p => !p.Changed)];
        double[] noise = [.. same.SelectMany(p => new[] { Math.Abs(p.Said.Discoloured ?? 0), Math.Abs(p.Said.Thinning) }).Order()];
        if (noise.Length > 10)
        {
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"unchanged plants: sectors called same {same.Count(p => p.Said.Word == "same")} of {same.Length}, 95 % of changes within {noise[(int)(0.95 * (noise.Length - 1))]:0.000}; greenness off by {same.Average(p => Math.Abs(p.Said.Greenness ?? 0)):0.000}"));
        }

        (SectorChange Said, SectorChange True, bool Changed)[] worse = [.. pairs.Where(p => p.True.Word == "worse" && Math.Max(p.True.Discoloured ?? 0, p.True.Thinning) >= 2 * PlantChange.Noise)];
        Console.Out.WriteLine($"sectors worse by ten points or more: called worse {worse.Count(p => p.Said.Word == "worse")} of {worse.Length}");
    }

    private static void Print(string name, (double Said, double True)[] pairs) => Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"{name}: CCC {Concordance.Of([.. pairs.Select(p => p.Said)], [.. pairs.Select(p => p.True)]).Ccc:0.000}, mean absolute error {pairs.Average(p => Math.Abs(p.Said - p.True)):0.000}"));

    // Photos of two plants, or of one from somewhere else.
    private static void Crossed(string folder, CancellationToken cancel)
    {
        string[] first = [.. Directory.GetFiles(folder, "*-first.jpg").Order(StringComparer.Ordinal)];
        int refused = 0;
        for (int i = 0; i + 1 < first.Length; i++)
        {
            using PlantView? one = TwoViews.View(first[i], cancel);
            using PlantView? other = TwoViews.View(first[i + 1], cancel);
            using ViewComparison? crossed = one is null || other is null ? null : ViewComparison.Of(one, other, ("", ""));
            refused += crossed?.Change is null ? 1 : 0;
        }

        Console.Out.WriteLine($"photos of two different plants: refused {refused} of {Math.Max(0, first.Length - 1)}");
    }
}
