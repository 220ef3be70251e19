using System.Globalization;
using System.Security.Cryptography;
using LeafScan.Leaves;

namespace LeafScan.Training.Bench;

/// <summary>Runs the real pipeline over folders with truth.</summary>
public static class BenchRun
{
    /// <summary>All photos with truth in the folders; a photo reached twice is listed once.</summary>
    /// <param name="folders">Folders.</param>
    /// <param name="numbers">Which photos.</param>
    public static IReadOnlyList<TruthCase> Cases(IReadOnlyList<string> folders, PhotoNumbers numbers)
        => [.. folders.SelectMany(TruthFolder.List).DistinctBy(c => c.PhotoPath).Where(c => numbers.Has(c.PhotoPath))];

    /// <summary>Measures photos.</summary>
    /// <param name="cases">The photos.</param>
    /// <param name="options">How to measure.</param>
    /// <param name="said">Told progress.</param>
    /// <param name="cancel">Stops between photos.</param>
    public static BenchDocument Over(IReadOnlyList<TruthCase> cases, MeasureOptions options, Action<string> said, CancellationToken cancel)
    {
        PhotoRow[] rows = new PhotoRow[cases.Count];
        int done = 0;
        Lock telling = new();

        // Photos are independent: as many at once as there are cores, kept in their order.
        Parallel.For(0, cases.Count, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
        {
            rows[i] = CaseMeter.Measure(cases[i], options, cancel);
            lock (telling)
            {
                if (++done % 10 == 0 || done == cases.Count)
                {
                    said(string.Create(CultureInfo.InvariantCulture, $"{done} of {cases.Count} photos measured"));
                }
            }
        });

        return BenchDocument.Of(rows, options, ToolVersion.Current, Networks());
    }

    // The measuring takes its networks from the folder "models" beside the program.
    private static List<string> Networks()
    {
        string folder = Path.Combine(AppContext.BaseDirectory, "models");
        string[] files = Directory.Exists(folder) ? [.. Directory.GetFiles(folder, "*.onnx"), .. Directory.GetFiles(folder, "*.zip")] : [];
        return [.. files.Order(StringComparer.Ordinal).Select(f => Path.GetFileName(f) + " " + Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(f)))[..12])];
    }
}
