using System.CommandLine;
using System.Text;
using LeafScan.Cli.Blocks;
using LeafScan.Cli.Screen;
using LeafScan.Cli.Walks;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Walks;
using LeafScan.Walks.Blocks;
using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Commands;

/// <summary>score: a whole block in one go, into the record, with its table and map.</summary>
internal static class ScoreCommand
{
    private const string UsualPlace = "Nursery";

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> folder = new("FOLDER")
        {
            Description = "Folder of the block: one sub-folder a plant, row and position (R2-P14.jpg) or a plant code at the start of each file name, or a photo of each plant's tag before its leaves.",
        };
        Option<string> block = new("--block") { Description = "Name of the block.", HelpName = "NAME", Required = true };
        Option<string?> place = new("--place") { Description = $"Name of the garden or nursery. Default: the only one on record, else \"{UsualPlace}\".", HelpName = "NAME" };
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "Day of the walk. Default: the day on which each photo was taken.");
        Option<string?> csv = new("--csv") { Description = "Writes a row a plant for a spreadsheet; - is standard output.", HelpName = "FILE" };
        Option<string?> json = JsonOut.NewOption();
        Option<string?> map = new("--map") { Description = "Draws the block as an SVG picture; - is standard output.", HelpName = "FILE" };
        Option<bool> dryRun = new("--dry-run") { Description = "Says what would be added; writes nothing." };
        Option<string> kind = KindOption.New();
        Option<int> jobs = Jobs.NewOption();
        ExampleCommand command = new(
            "score",
            "Measures a whole block and says where to start. May be stopped and run again: what is on record is not measured twice.",
            "leafscan score photos/block-b --block B --csv block-b.csv --map block-b.svg",
            "leafscan score photos/block-b --block B --place \"Hill nursery\" --date 2026-07-02 --dry-run")
        {
            folder, block, place, date, csv, json, map, dryRun, kind, jobs,
        };
        command.SetAction((parsed, cancel) => RunAsync(
            parsed,
            world,
            new Request(
                parsed.GetValue(folder)!, parsed.GetValue(block)!, parsed.GetValue(place), parsed.GetValue(date), parsed.GetValue(csv),
                JsonOut.Target(parsed, json), parsed.GetValue(map), parsed.GetValue(dryRun), parsed.GetValue(kind), parsed.GetValue(jobs)),
            cancel));
        return command;
    }

    private sealed record Request(
        string Folder, string Block, string? Place, DateOnly? Day, string? Csv, string? Json, string? Map, bool DryRun, string? Kind, int Jobs)
    {
        public bool TakesOut => new[] { Csv, Json, Map }.Contains(JsonOut.StandardOutput);
    }

    private static async Task<int> RunAsync(ParseResult parsed, Surroundings world, Request request, CancellationToken cancel)
    {
        if (new[] { request.Csv, request.Json, request.Map }.Count(target => target == JsonOut.StandardOutput) > 1)
        {
            throw new CommandException(ExitCode.WrongUse, "Only one of --csv, --json and --map can go to standard output. Nothing was done.");
        }

        string block = NameText.Clean(request.Block)
            ?? throw new CommandException(ExitCode.WrongUse, "The name of the block is empty, too long or holds control characters. Nothing was done. Give a short name.");
        PhotoInputs inputs = await PhotoInputs.ListAsync([request.Folder], world.Time, cancel).ConfigureAwait(false);
        if (inputs.Problems.Count > 0)
        {
            throw new CommandException(ExitCode.WrongUse, inputs.Problems[0].Reason + " Nothing was added.");
        }

        if (inputs.Items.Count == 0)
        {
            throw new CommandException(ExitCode.NothingMeasurable, $"There is no photo in \"{request.Folder}\". Nothing was added. LeafScan reads JPEG, PNG and HEIC.");
        }

        return request.DryRun
            ? await DryRunAsync(parsed, world, request, inputs, cancel).ConfigureAwait(false)
            : await ScoreAsync(parsed, world, request, block, inputs, cancel).ConfigureAwait(false);
    }

    private static async Task<int> DryRunAsync(ParseResult parsed, Surroundings world, Request request, PhotoInputs inputs, CancellationToken cancel)
    {
        using RecordStore? store = RecordStore.Exists(DataPlace.Of(parsed, world).FolderPath) ? DataPlace.OpenExisting(parsed, world) : null;
        WalkPlan plan = await PlanAsync(world, request, inputs, print => store?.FindPhoto(print), JobOf(parsed, world, request), cancel).ConfigureAwait(false);
        int refused = plan.Files.Count(file => file.Refusal is not null);
        if (request.Json is { } target)
        {
            JsonOut.Write(world, target, WalkDryRun.Document(ToolVersion.Current, PlaceOf(store, request), plan));
        }

        if (request.Json != JsonOut.StandardOutput)
        {
            int fresh = plan.Files.Count(file => file.IsNew);
            WalkDryRun.Write(world.Out, plan);
            world.Out.WriteLine(
                $"Would add {fresh} new to block {Words.OneLine(request.Block)}; {plan.Files.Count - fresh - refused} already here, {refused} refused. Nothing was written.");
        }

        RefusalLines.Write(world, inputs.Skipped);
        RefusalLines.Write(world, plan.Files.Where(file => file.Refusal is not null).Select(file => file.Refusal!));
        PlantQuestions.Write(world, [.. plan.Files.Where(file => file.IsNew).Select(PlantQuestion.Of)]);
        return Code(plan.Files.Count - refused, refused);
    }

    private static async Task<int> ScoreAsync(
        ParseResult parsed, Surroundings world, Request request, string block, PhotoInputs inputs, CancellationToken cancel)
    {
        using RecordStore store = DataPlace.OpenOrBegin(parsed, world);
        string place = PlaceOf(store, request);
        MeasureJob job = JobOf(parsed, world, request);
        WalkPlan plan = await PlanAsync(world, request, inputs, store.FindPhoto, job, cancel).ConfigureAwait(false);
        WalkOutcome outcome = await WalkRun.AddAsync(store, place, world, plan, job, error => Trouble.Log(parsed, world, error), cancel, "score").ConfigureAwait(false);
        if (outcome.Stopped)
        {
            RefusalLines.Write(world, outcome.Refused);
            int left = outcome.Planned - outcome.Added.Count - outcome.Refused.Count(refusal => plan.Files.Any(file => file.IsNew && file.Item.Label == refusal.FileName));
            world.Err.WriteLine($"Stopped: {outcome.Counts}, {left} left. What was added is safe; run the same command again to go on.");
            return ExitCode.Stopped;
        }

        // Of a photo that is on record the record knows the plant: it may have been told by a tag, or by hand since.
        HashSet<string> codes = new(plan.Files.Select(file => file.Known is { } known ? known.PlantCode : file.Plant.Code).OfType<string>(), StringComparer.OrdinalIgnoreCase);
        IReadOnlyList<string> elsewhere = BlockPlants.Note(store, place, block, codes);
        BlockScore score = BlockScore.Of(store, plan, outcome.Refused.Select(refusal => refusal.FileName));
        WriteFiles(world, request, place, block, plan, outcome, score);
        if (!request.TakesOut)
        {
            BlockScreen.Write(world.Out, block, score);
        }

        Remarks(world, inputs, plan, outcome, score, elsewhere, place);
        return Code(outcome.Added.Count + outcome.AlreadyHere.Count, outcome.Refused.Count);
    }

    private static void WriteFiles(Surroundings world, Request request, string place, string block, WalkPlan plan, WalkOutcome outcome, BlockScore score)
    {
        if (request.Csv is { } csv)
        {
            CsvOut.Write(world, csv, BlockScreen.Csv(place, block, score));
        }

        if (request.Json is { } json)
        {
            JsonOut.Write(world, json, BlockScreen.Document(ToolVersion.Current, place, block, outcome, score));
        }

        if (request.Map is { } map)
        {
            DateOnly[] days = [.. plan.Files.Select(plan.DayOf).OfType<DateOnly>().Distinct().Order()];
            string when = days.Length == 0 ? "no day" : days.Length == 1 ? Words.Day(days[0]) : $"{Words.Day(days[0])} to {Words.Day(days[^1])}";
            string svg = BlockMapSvg.Draw(block, when, score);
            if (map == JsonOut.StandardOutput)
            {
                world.Out.Write(svg);
            }
            else
            {
                SafeFile.Write(map, stream => stream.Write(Encoding.UTF8.GetBytes(svg)));
            }
        }
    }

    private static void Remarks(
        Surroundings world, PhotoInputs inputs, WalkPlan plan, WalkOutcome outcome, BlockScore score, IReadOnlyList<string> elsewhere, string place)
    {
        RefusalLines.Write(world, inputs.Skipped);
        RefusalLines.Write(world, outcome.Refused);
        if (score.PhotosWithoutPlant > 0)
        {
            world.Err.WriteLine($"Not in the table, because their plant is unknown: {Words.Count(score.PhotosWithoutPlant, "photo")}. To see them: leafscan photos --plant -");
        }

        PlantQuestions.Write(world, [.. outcome.Added.Select(PlantQuestion.Of)]);
        if (elsewhere.Count > 0)
        {
            world.Err.WriteLine(Words.OneLine($"In another block on record, and left there: {string.Join(", ", elsewhere.Take(10))}{(elsewhere.Count > 10 ? ", ..." : string.Empty)}. To move one: leafscan plants set CODE --block NAME"));
        }

        world.Err.WriteLine(Words.OneLine($"{place}: {outcome.Counts}."));
    }

    private static MeasureJob JobOf(ParseResult parsed, Surroundings world, Request request) =>
        new() { Options = PrinterScale.Options(parsed, world, request.Kind), Workers = request.Jobs, FinishInHand = true };

    // Where every name tells row and position a person has sorted the photos already: looking for tags would only cost time.
    private static async Task<WalkPlan> PlanAsync(
        Surroundings world, Request request, PhotoInputs inputs, Func<string, PhotoOnRecord?> find, MeasureJob job, CancellationToken cancel)
    {
        string folder = Path.GetFullPath(request.Folder);
        WalkPlan plan = WalkPlan.Make(folder, inputs.Items, request.Day, find, world.Time, cancel, RowPosition.Decide);
        return inputs.Items.All(item => RowPosition.OfPath(folder, item.Path) is not null)
            ? plan
            : await TagSearch.ReadAsync(world, plan, job, cancel).ConfigureAwait(false);
    }

    private static string PlaceOf(RecordStore? store, Request request) =>
        request.Place ?? (store?.Places() is [var only] ? only.Name : UsualPlace);

    private static int Code(int good, int refused) =>
        refused == 0 ? ExitCode.Done : good == 0 ? ExitCode.NothingMeasurable : ExitCode.SomeRefused;
}
