using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using LeafScan.Training.Demo;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Truth;

namespace LeafScan.Training.Commands;

/// <summary>render: writes photos with exact truth.</summary>
internal static class RenderCommand
{
    public static Command Build()
    {
        Option<int> scenes = new("--scenes") { Description = "How many scenes.", DefaultValueFactory = _ => 10 };
        Option<int> seed = new("--seed") { Description = "Seed of the first scene; the others follow.", DefaultValueFactory = _ => 1 };
        Option<Difficulty> level = new("--level") { Description = "easy, medium or hard.", DefaultValueFactory = _ => Difficulty.Medium };
        Option<DirectoryInfo> folder = new("--out") { Description = "Folder to write to; made when missing. Required." };
        Option<int> size = new("--size") { Description = "Long side of the photos in pixels, 400 to 6000.", DefaultValueFactory = _ => 1600 };
        size.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 400 or > 6000)
            {
                result.AddError("The size of a photo is 400 to 6000 pixels; nothing was written.");
            }
        });
        Command command = new("render", "Writes photos of rendered leaves with mask, shares and specks.") { scenes, seed, level, folder, size };
        Option<bool> keptAside = new("--kept-aside") { Description = "Allows seeds that are kept aside for reporting accuracy." };
        command.Options.Add(keptAside);
        Option<FileInfo> sheet = new("--contact-sheet") { Description = "Also writes all scenes small on one JPEG." };
        command.Options.Add(sheet);
        command.SetAction((parsed, cancel) =>
        {
            int from = parsed.GetValue(seed);
            if (parsed.GetValue(folder) is not { } to)
            {
                Console.Error.WriteLine("Say where to write with --out FOLDER; nothing was written.");
                return Task.FromResult(1);
            }

            if (!parsed.GetValue(keptAside) && (KeptAside.Holds(from) || KeptAside.Holds(from + parsed.GetValue(scenes) - 1)))
            {
                Console.Error.WriteLine($"Seeds {KeptAside.First} to {KeptAside.Last} are kept aside for reporting accuracy; nothing was written. Choose others, or add --kept-aside when you only report.");
                return Task.FromResult(1);
            }

            Render(parsed.GetValue(scenes), from, parsed.GetValue(level), to.FullName, parsed.GetValue(size), parsed.GetValue(sheet)?.FullName, cancel);
            return Task.FromResult(0);
        });
        command.Subcommands.Add(Demo());
        return command;
    }

    private static Command Demo()
    {
        Option<DirectoryInfo> folder = new("--out") { Description = "Folder to write to, usually sample-images.", Required = true };
        Command command = new("demo", "Writes the demo pictures: an invented nursery, three plants, two walks.") { folder };
        command.SetAction((parsed, cancel) =>
        {
            DemoWriter.Write(parsed.GetValue(folder)!.FullName, Console.Error.WriteLine, cancel);
            return Task.FromResult(0);
        });
        return command;
    }

    private static void Render(int count, int seed, Difficulty level, string folder, int size, string? sheetPath, CancellationToken cancel)
    {
        using ContactSheet sheet = new(Math.Max(1, count));
        Stopwatch watch = Stopwatch.StartNew();
        for (int i = 0; i < count; i++)
        {
            cancel.ThrowIfCancellationRequested();
            using RenderedScene scene = SceneRenderer.Render(SceneChooser.Choose(seed + i, level, size));
            SceneWriter.Write(scene, folder);
            sheet.Add(scene.Jpeg);
        }

        if (sheetPath is not null)
        {
            sheet.Write(sheetPath);
        }

        Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Wrote {count} scenes to {folder} in {watch.Elapsed.TotalSeconds:F1} s."));
    }
}
