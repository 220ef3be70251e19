using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Cli.Walks;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Walks;
using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Commands;

/// <summary>walk add: the photos of a walk into the record.</summary>
internal static class WalkCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> folder = new("FOLDER") { Description = "Folder of the walk: one sub-folder a plant, a plant code at the start of each file name, or a photo of each plant's tag before its leaves." };
        Option<string> place = new("--place") { Description = "Name of the garden or nursery; begun when it is new.", HelpName = "NAME", Required = true };
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "Day of the walk. Default: the day on which each photo was taken.");
        Option<bool> dryRun = new("--dry-run") { Description = "Says what would be added; writes nothing." };
        Option<string> kind = KindOption.New();
        Option<int> jobs = Jobs.NewOption();
        Option<string?> json = JsonOut.NewOption();

        ExampleCommand add = new(
            "add",
            "Measures the new photos of a folder and keeps them. Photos that are on record already are left out, so it may be run again.",
            "leafscan walk add photos/2026-07-02 --place \"Hill nursery\"",
            "leafscan walk add photos/2026-07-02 --place \"Hill nursery\" --date 2026-07-02 --dry-run")
        {
            folder, place, date, dryRun, kind, jobs, json,
        };
        add.SetAction((parsed, cancel) =>
        {
            Request request = new(parsed.GetValue(folder)!, parsed.GetValue(place)!, parsed.GetValue(date), parsed.GetValue(kind), parsed.GetValue(jobs), JsonOut.Target(parsed, json));
            return parsed.GetValue(dryRun) ? DryRunAsync(parsed, world, request, cancel) : AddAsync(parsed, world, request, cancel);
        });
        return new Command("walk", "Walks: one visit to a place on one day.") { add };
    }

    private sealed record Request(string Folder, string Place, DateOnly? Day, string? Kind, int Jobs, string? Json);

    private static async Task<int> AddAsync(ParseResult parsed, Surroundings world, Request request, CancellationToken cancel)
    {
        PhotoInputs inputs = await ListAsync(world, request, cancel).ConfigureAwait(false);
        using RecordStore store = DataPlace.OpenOrBegin(parsed, world);
        MeasureJob job = JobOf(parsed, world, request);
        WalkPlan plan = WalkPlan.Make(Path.GetFullPath(request.Folder), inputs.Items, request.Day, store.FindPhoto, world.Time, cancel);
        plan = await TagSearch.ReadAsync(world, plan, job, cancel).ConfigureAwait(false);
        WalkOutcome outcome = await WalkRun.AddAsync(store, request.Place, world, plan, job, error => Trouble.Log(parsed, world, error), cancel).ConfigureAwait(false);

        if (request.Json is { } target)
        {
            JsonOut.Write(world, target, WalkScreen.Document(ToolVersion.Current, request.Place, outcome));
        }

        if (request.Json != JsonOut.StandardOutput)
        {
            WalkScreen.Write(world, outcome);
        }

        RefusalLines.Write(world, inputs.Skipped);
        WalkScreen.WriteRemarks(world, outcome);
        if (outcome.Stopped)
        {
            int left = outcome.Planned - outcome.Added.Count;
            world.Err.WriteLine($"Stopped: {outcome.Counts}, about {left} left. What was added is safe; run the same command again to go on.");
            return ExitCode.Stopped;
        }

        return Code(outcome.Added.Count + outcome.AlreadyHere.Count, outcome.Refused.Count);
    }

    private static async Task<int> DryRunAsync(ParseResult parsed, Surroundings world, Request request, CancellationToken cancel)
    {
        PhotoInputs inputs = await ListAsync(world, request, cancel).ConfigureAwait(false);
        using RecordStore? store = RecordStore.Exists(DataPlace.Of(parsed, world).FolderPath) ? DataPlace.OpenExisting(parsed, world) : null;
        WalkPlan plan = WalkPlan.Make(
            Path.GetFullPath(request.Folder), inputs.Items, request.Day, print => store?.FindPhoto(print), world.Time, cancel);
        plan = await TagSearch.ReadAsync(world, plan, JobOf(parsed, world, request), cancel).ConfigureAwait(false);
        int fresh = plan.Files.Count(file => file.IsNew);
        int refused = plan.Files.Count(file => file.Refusal is not null);
        if (request.Json is { } target)
        {
            JsonOut.Write(world, target, WalkDryRun.Document(ToolVersion.Current, request.Place, plan));
        }

        if (request.Json != JsonOut.StandardOutput)
        {
            WalkDryRun.Write(world.Out, plan);
            world.Out.WriteLine($"Would add {fresh} new; {plan.Files.Count - fresh - refused} already here, {refused} refused. Nothing was written.");
        }

        RefusalLines.Write(world, inputs.Skipped);
        RefusalLines.Write(world, plan.Files.Where(file => file.Refusal is not null).Select(file => file.Refusal!));
        PlantQuestions.Write(world, [.. plan.Files.Where(file => file.IsNew).Select(PlantQuestion.Of)]);
        return Code(plan.Files.Count - refused, refused);
    }

    private static MeasureJob JobOf(ParseResult parsed, Surroundings world, Request request) =>
        new() { Options = PrinterScale.Options(parsed, world, request.Kind), Workers = request.Jobs };

    private static async Task<PhotoInputs> ListAsync(Surroundings world, Request request, CancellationToken cancel)
    {
        PhotoInputs inputs = await PhotoInputs.ListAsync([request.Folder], world.Time, cancel).ConfigureAwait(false);
        if (inputs.Problems.Count > 0)
        {
            throw new CommandException(ExitCode.WrongUse, inputs.Problems[0].Reason + " Nothing was added.");
        }

        return inputs.Items.Count > 0
            ? inputs
            : throw new CommandException(ExitCode.NothingMeasurable, $"There is no photo in \"{request.Folder}\". Nothing was added. LeafScan reads JPEG, PNG and HEIC.");
    }

    private static int Code(int good, int refused) =>
        refused == 0 ? ExitCode.Done : good == 0 ? ExitCode.NothingMeasurable : ExitCode.SomeRefused;
}
