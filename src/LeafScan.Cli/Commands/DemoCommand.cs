using System.CommandLine;
using LeafScan.Cli.Demo;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Walks;

namespace LeafScan.Cli.Commands;

/// <summary>demo: the whole job on an invented nursery.</summary>
internal static class DemoCommand
{
    private const string UsualFolder = "leafscan-demo";

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string> folder = new("--out") { Description = $"Folder to make it in. Default: {UsualFolder} in the current folder.", HelpName = "DIR", DefaultValueFactory = _ => UsualFolder };
        Option<int> jobs = Jobs.NewOption();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "demo",
            "Measures the photos of an invented nursery, two walks a month apart, and keeps them in a record of its own.",
            "leafscan demo",
            "leafscan demo --out try; leafscan series B07 --data-dir try")
        {
            folder, jobs, json,
        };
        command.Validators.Add(result =>
        {
            // The demo has a record of its own: it never writes invented plants into that of the person.
            if (result.GetResult(DataPlace.Option) is { Implicit: false })
            {
                result.AddError("The demo keeps a record of its own. Say where with --out, then look at it with --data-dir.");
            }
        });
        command.SetAction((parsed, cancel) => RunAsync(
            parsed, world, Path.GetFullPath(parsed.GetValue(folder)!), parsed.GetValue(jobs), JsonOut.Target(parsed, json), cancel));
        return command;
    }

    private static async Task<int> RunAsync(ParseResult parsed, Surroundings world, string folder, int jobs, string? target, CancellationToken cancel)
    {
        string samples = Path.Combine(world.ProgramFolder, "sample-images");
        DemoStory story = DemoStory.Read(samples);
        using RecordStore store = RecordStore.Open(folder, world.Time);
        DemoMaker maker = new(story, samples, folder, world);
        IReadOnlyList<WalkOutcome> outcomes = await maker.MakeAsync(store, jobs, error => Trouble.Log(parsed, world, error), cancel).ConfigureAwait(false);
        foreach (WalkOutcome outcome in outcomes)
        {
            RefusalLines.Write(world, outcome.Refused);
        }

        if (target is not null)
        {
            JsonOut.Write(world, target, new
            {
                schema = "leafscan.demo-result/1",
                tool = ToolVersion.Current,
                folder,
                record = store.File,
                photos = maker.PhotosFolder,
                overlays = maker.OverlaysFolder,
                added = outcomes.Sum(outcome => outcome.Added.Count),
                alreadyHere = outcomes.Sum(outcome => outcome.AlreadyHere.Count),
                refused = outcomes.Sum(outcome => outcome.Refused.Count),
            });
        }

        if (target != JsonOut.StandardOutput)
        {
            Write(world.Out, story, store, maker, folder, outcomes);
        }

        return outcomes.Any(outcome => outcome.Refused.Count > 0) ? ExitCode.SomeRefused : ExitCode.Done;
    }

    private static void Write(
        TextWriter writer, DemoStory story, RecordStore store, DemoMaker maker, string folder, IReadOnlyList<WalkOutcome> outcomes)
    {
        writer.WriteLine($"{story.Place.Name} (invented): {Words.Count(story.Plants.Count, "plant")}, {Words.Count(story.Walks.Count, "walk")}.");
        foreach ((DemoStory.WalkFolder walk, WalkOutcome outcome) in story.Walks.Zip(outcomes))
        {
            writer.WriteLine($"Walk of {Words.Day(walk.Date)}: {outcome.Counts}.");
        }

        foreach (DemoStory.PlantWords plant in story.Plants)
        {
            writer.WriteLine($"{plant.Code}, {plant.Name}: {plant.Story}");
        }

        (Month from, Month to) = (Month.Of(story.Walks[0].Date), Month.Of(story.Walks[^1].Date));
        writer.WriteLine();
        CompareTable.Write(writer, CompareCommand.Compare(store, store.Plants(), from, to));
        writer.WriteLine();
        writer.WriteLine($"Photos:   {maker.PhotosFolder}");
        writer.WriteLine($"Overlays: {maker.OverlaysFolder} (look whether you agree)");
        writer.WriteLine($"Record:   {store.File}");
        writer.WriteLine("Go on with:");
        foreach (string command in new[] { "plants", $"series {story.Plants[0].Code}", $"verdict {story.Plants[0].Code}", $"compare --from {from} --to {to}", "next", $"note {story.Plants[0].Code} --out note.pdf", "serve" })
        {
            writer.WriteLine($"  leafscan {command} --data-dir {Quote(folder)}");
        }
    }

    private static string Quote(string path) =>
        path.All(letter => char.IsLetterOrDigit(letter) || "/._-".Contains(letter, StringComparison.Ordinal)) ? path : $"'{path.Replace("'", "'\\''", StringComparison.Ordinal)}'";
}
