using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.TapSheets;

namespace LeafScan.Training.Commands;

/// <summary>render taps: writes pairs of photos of tap sheets on which it is known what walks.</summary>
internal static class RenderTapsCommand
{
    public static Command Build()
    {
        SeriesOptions options = new();
        Command command = new("taps", "Writes pairs of photos of rendered tap sheets with every thing's place in both.");
        options.AddTo(command);
        command.SetAction((parsed, cancel) =>
        {
            (int count, int seed, Difficulty level, string folder, int size) = options.Read(parsed);
            Stopwatch watch = Stopwatch.StartNew();
            for (int i = 0; i < count; i++)
            {
                cancel.ThrowIfCancellationRequested();
                TapWriter.Write(TapRenderer.Render(TapChooser.Choose(seed + i, level, size)), folder);
            }

            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Wrote {count} pairs to {folder} in {watch.Elapsed.TotalSeconds:F1} s."));
            return Task.FromResult(0);
        });
        return command;
    }
}
