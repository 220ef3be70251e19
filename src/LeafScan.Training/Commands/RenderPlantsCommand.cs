using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;

namespace LeafScan.Training.Commands;

/// <summary>render plants: writes photos of whole plants with exact truth.</summary>
internal static class RenderPlantsCommand
{
    public static Command Build()
    {
        SeriesOptions options = new();
        Command command = new("plants", "Writes photos of rendered whole plants with mask, shares, thinning and the worse side.");
        options.AddTo(command);
        command.SetAction((parsed, cancel) =>
        {
            (int count, int seed, Difficulty level, string folder, int size) = options.Read(parsed);
            Stopwatch watch = Stopwatch.StartNew();
            for (int i = 0; i < count; i++)
            {
                cancel.ThrowIfCancellationRequested();
                using RenderedPlant plant = PlantRenderer.Render(PlantChooser.Choose(seed + i, level, size));
                PlantWriter.Write(plant, folder);
            }

            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Wrote {count} plants to {folder} in {watch.Elapsed.TotalSeconds:F1} s."));
            return Task.FromResult(0);
        });
        return command;
    }
}
