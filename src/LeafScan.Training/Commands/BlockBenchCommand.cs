using System.CommandLine;
using System.Text.Json;
using LeafScan.Training.BlockBench;

namespace LeafScan.Training.Commands;

/// <summary>block-bench: how fast a block is measured, in how much memory, and what a megapixel costs.</summary>
internal static class BlockBenchCommand
{
    private const int MarkEvery = 50;

    // The first photos load networks and compile code, and may not fall on one of the numbers of jobs alone.
    private const int WarmUp = 4;

    private static readonly double[] Megapixels = [3, 6, 12, 24];

    private static readonly JsonSerializerOptions Layout = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true };

    public static Command Build()
    {
        Option<int> photos = new("--photos") { Description = "Photos of twelve megapixels, 8 to 2000; 400 by default.", DefaultValueFactory = _ => 400 };
        Option<string> folder = new("--folder") { Description = "Folder for the photos; those that are there are used again.", Required = true, HelpName = "DIR" };
        Option<int> scenes = new("--scenes") { Description = "Scenes that are rendered for them, 1 to 100; 8 by default. Each photo is one of them framed and lit anew.", DefaultValueFactory = _ => 8 };
        Option<int> seed = new("--seed") { Description = "Seed of the first scene; 1 by default.", DefaultValueFactory = _ => 1 };
        Option<int[]> jobs = new("--jobs") { Description = "Photos at the same time, one pass for each number; 2 and 1 by default.", AllowMultipleArgumentsPerToken = true, DefaultValueFactory = _ => [2, 1] };
        Option<int> rounds = new("--rounds") { Description = "Rounds over the sizes, 1 to 99; 5 by default.", DefaultValueFactory = _ => 5 };
        Option<bool> make = new("--make") { Description = "Only makes the photos. Rendering leaves memory behind: for figures of memory, make them first and measure in a second run." };
        Option<string?> json = new("--json") { Description = "Also writes the figures as JSON.", HelpName = "FILE" };
        Command command = new("block-bench", "Renders photos of a block once, then measures them with two jobs and with one, and one leaf at 3, 6, 12 and 24 megapixels.")
        {
            photos, folder, scenes, seed, jobs, rounds, make, json,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            (int count, int of, int[] passes, int turns) = (parsed.GetValue(photos), parsed.GetValue(scenes), parsed.GetValue(jobs)!, parsed.GetValue(rounds));
            if (count is < 8 or > 2000 || of is < 1 or > 100 || turns is < 1 or > 99 || passes.Length == 0 || passes.Any(n => n is < 1 or > 64))
            {
                await Console.Error.WriteLineAsync("A number is out of its range (see --help); nothing was measured.").ConfigureAwait(false);
                return 1;
            }

            string where = Path.GetFullPath(parsed.GetValue(folder)!);
            IReadOnlyList<string> paths = BlockPhotos.Make(Path.Combine(where, "block"), count, of, parsed.GetValue(seed), Console.Error.WriteLine, cancel);
            IReadOnlyList<string> sizes = BlockPhotos.Sizes(Path.Combine(where, "sizes"), Megapixels, parsed.GetValue(seed));
            if (parsed.GetValue(make))
            {
                return 0;
            }

            await BlockPass.OfAsync([.. paths.Take(WarmUp)], passes.Max(), MarkEvery, _ => { }, cancel).ConfigureAwait(false);
            List<BlockPass> done = [];
            foreach (int n in passes)
            {
                done.Add(await BlockPass.OfAsync(paths, n, MarkEvery, Console.Error.WriteLine, cancel).ConfigureAwait(false));
            }

            BlockReport report = new(done, SizeCost.Of(sizes, turns, cancel));
            Console.Out.WriteLine(report.Markdown());
            if (parsed.GetValue(json) is { } file)
            {
                await File.WriteAllTextAsync(file, JsonSerializer.Serialize(report.Document(), Layout), cancel).ConfigureAwait(false);
            }

            return 0;
        });
        return command;
    }
}
