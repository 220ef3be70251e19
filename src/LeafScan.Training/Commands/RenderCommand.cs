using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using LeafScan.Training.Demo;
using LeafScan.Training.FrameCheck;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Truth;

namespace LeafScan.Training.Commands;

/// <summary>render: writes photos with exact truth.</summary>
internal static class RenderCommand
{
    public static Command Build()
    {
        SeriesOptions options = new();
        Option<FileInfo> sheet = new("--contact-sheet") { Description = "Also writes all scenes small on one JPEG." };
        Command command = new("render", "Writes photos of rendered leaves with mask, shares and specks.") { sheet };
        options.AddTo(command);
        command.SetAction((parsed, cancel) =>
        {
            (int count, int seed, Difficulty level, string to, int size) = options.Read(parsed);
            Render(count, seed, level, to, size, parsed.GetValue(sheet)?.FullName, cancel);
            return Task.FromResult(0);
        });
        command.Subcommands.Add(Demo());
        command.Subcommands.Add(Walk());
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

    private static Command Walk()
    {
        Option<DirectoryInfo> folder = new("--out") { Description = "Folder to write to.", Required = true };
        Option<int> seed = new("--seed") { Description = "Seed.", DefaultValueFactory = _ => 60 };
        Command command = new("walk", "Writes a mixed walk: leaves of eight plants, each begun with a photo of its tag, one of them too blurred to read.") { folder, seed };
        command.SetAction((parsed, cancel) =>
        {
            MixedWalk walk = MixedWalk.Plan(parsed.GetValue(seed));
            walk.Write(parsed.GetValue(folder)!.FullName, distinctLeaves: int.MaxValue, cancel);
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Wrote {walk.Photos.Count} photos to {parsed.GetValue(folder)!.FullName}."));
            return Task.FromResult(0);
        });
        return command;
    }

    private static void Render(int count, int seed, Difficulty level, string folder, int size, string? sheetPath, CancellationToken cancel)
    {
        using ContactSheet? sheet = sheetPath is null ? null : new(count);
        Stopwatch watch = Stopwatch.StartNew();
        for (int i = 0; i < count; i++)
        {
            cancel.ThrowIfCancellationRequested();
            using RenderedScene scene = SceneRenderer.Render(SceneChooser.Choose(seed + i, level, size));
            SceneWriter.Write(scene, folder);
            sheet?.Add(scene.Jpeg);
        }

        if (sheetPath is not null)
        {
            sheet?.Write(sheetPath);
        }

        Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Wrote {count} scenes to {folder} in {watch.Elapsed.TotalSeconds:F1} s."));
    }
}
