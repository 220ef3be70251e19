using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;
using LeafScan.Training.Rendering.Sheets;
using LeafScan.Training.Rendering.TapSheets;
using LeafScan.Training.Rendering.Twigs;

namespace LeafScan.Training.Commands;

/// <summary>render twigs, render plants, render taps, render sheets: one seed after the other, rendered and written.</summary>
internal static class SeriesCommand
{
    public static Command Twigs() => Build("twigs", "Writes photos of rendered conifer twigs with mask, shares and specks.", "twigs", true, (seed, level, size, season, folder) =>
    {
        using RenderedTwig twig = TwigRenderer.Render(season ? TwigChooser.ChooseSeason(seed, level, size) : TwigChooser.Choose(seed, level, size));
        TwigWriter.Write(twig, folder);
    });

    public static Command Plants() => Build("plants", "Writes photos of rendered whole plants with mask, shares, thinning and the worse side.", "plants", true, (seed, level, size, season, folder) =>
    {
        using RenderedPlant plant = PlantRenderer.Render(season ? PlantChooser.ChooseSeason(seed, level, size) : PlantChooser.Choose(seed, level, size));
        PlantWriter.Write(plant, folder);
    });

    public static Command Taps() => Build("taps", "Writes pairs of photos of rendered tap sheets with every thing's place in both.", "pairs", false, (seed, level, size, _, folder) =>
        TapWriter.Write(TapRenderer.Render(TapChooser.Choose(seed, level, size)), folder));

    public static Command Sheets() => Build("sheets", "Writes photos of rendered scale sheets with a leaf and a tag, with scale, places and mask.", "sheets", false, (seed, level, size, _, folder) =>
    {
        using RenderedSheet sheet = SheetRenderer.Render(SheetChooser.Choose(seed, level, size));
        SheetWriter.Write(sheet, folder);
    });

    private static Command Build(string name, string what, string things, bool hasSeason, Action<int, Difficulty, int, bool, string> one)
    {
        SeriesOptions options = new();
        Command command = new(name, what);
        options.AddTo(command);
        Option<bool> season = new("--season") { Description = "Nothing wrong, but in fall colour or with new growth: what must never be called mites." };
        if (hasSeason)
        {
            command.Options.Add(season);
        }

        command.SetAction((parsed, cancel) =>
        {
            (int count, int seed, Difficulty level, string folder, int size) = options.Read(parsed);
            bool only = hasSeason && parsed.GetValue(season);
            Stopwatch watch = Stopwatch.StartNew();
            for (int i = 0; i < count; i++)
            {
                cancel.ThrowIfCancellationRequested();
                one(seed + i, level, size, only, folder);
            }

            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Wrote {count} {things} to {folder} in {watch.Elapsed.TotalSeconds:F1} s."));
            return Task.FromResult(0);
        });
        return command;
    }
}
