using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Twigs;

namespace LeafScan.Training.Commands;

/// <summary>render twigs: writes photos of conifer twigs with exact truth.</summary>
internal static class RenderTwigsCommand
{
    public static Command Build()
    {
        SeriesOptions options = new();
        Command command = new("twigs", "Writes photos of rendered conifer twigs with mask, shares and specks.");
        options.AddTo(command);
        command.SetAction((parsed, cancel) =>
        {
            (int count, int seed, Difficulty level, string folder, int size) = options.Read(parsed);
            Stopwatch watch = Stopwatch.StartNew();
            for (int i = 0; i < count; i++)
            {
                cancel.ThrowIfCancellationRequested();
                using RenderedTwig twig = TwigRenderer.Render(TwigChooser.Choose(seed + i, level, size));
                TwigWriter.Write(twig, folder);
            }

            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Wrote {count} twigs to {folder} in {watch.Elapsed.TotalSeconds:F1} s."));
            return Task.FromResult(0);
        });
        return command;
    }
}
