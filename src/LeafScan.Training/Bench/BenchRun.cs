using System.Globalization;
using System.Security.Cryptography;
using LeafScan.Leaves;

namespace LeafScan.Training.Bench;

/// <summary>Runs the real pipeline over folders with truth.</summary>
public static class BenchRun
{
    /// <summary>Measures all photos with truth in the folders.</summary>
    /// <param name="folders">Folders; a photo reached twice is measured once.</param>
    /// <param name="options">How to measure.</param>
    /// <param name="said">Told progress.</param>
    /// <param name="cancel">Stops between photos.</param>
    public static BenchDocument Over(IReadOnlyList<string> folders, MeasureOptions options, Action<string> said, CancellationToken cancel)
    {
        TruthCase[] cases = [.. folders.SelectMany(TruthFolder.List).DistinctBy(c => c.PhotoPath)];
        List<PhotoRow> rows = [];
        foreach (TruthCase one in cases)
        {
            cancel.ThrowIfCancellationRequested();
            rows.Add(CaseMeter.Measure(one, options, cancel));
            if (rows.Count % 10 == 0 || rows.Count == cases.Length)
            {
                said(string.Create(CultureInfo.InvariantCulture, $"{rows.Count} of {cases.Length} photos measured"));
            }
        }

        return BenchDocument.Of(rows, options, ToolVersion.Current, Networks());
    }

    // The measuring takes its networks from the folder "models" beside the program.
    private static List<string> Networks()
    {
        string folder = Path.Combine(AppContext.BaseDirectory, "models");
        string[] files = Directory.Exists(folder) ? Directory.GetFiles(folder, "*.onnx") : [];
        return [.. files.Order(StringComparer.Ordinal).Select(f => Path.GetFileName(f) + " " + Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(f)))[..12])];
    }
}
