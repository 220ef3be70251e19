using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Commands;

/// <summary>measure: photos in; JSON, masks, overlays or a table out. Keeps no record.</summary>
internal static class MeasureCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string[]> photos = new("PHOTO")
        {
            Description = "Photo files (JPEG, PNG, HEIC); a folder counts as its photos and those of its sub-folders.",
            Arity = ArgumentArity.OneOrMore,
        };
        // Else a mistyped option would be taken for a photo that is not there, and everything else would be measured.
        photos.Validators.Add(result =>
        {
            foreach (string word in result.Tokens.Select(token => token.Value).Where(word => word.StartsWith('-') && !Path.Exists(word)))
            {
                result.AddError($"\"{word}\" is no option of measure and no file.");
            }
        });
        Option<string?> json = new("--json") { Description = "Writes the readings as JSON; - is standard output.", HelpName = "FILE" };
        Option<string?> masks = new("--masks") { Description = "Writes NAME.mask.png of each photo into this folder.", HelpName = "DIR" };
        Option<string?> overlays = new("--overlays") { Description = "Writes NAME.overlay.jpg of each photo into this folder.", HelpName = "DIR" };
        Option<string> kind = KindOption.New();
        Option<string?> healthy = HealthyOption.New("A photo of the same twig or plant in health: where it has lost its green all over, damage is measured against that colour. Twigs and whole plants only.");
        Option<int> jobs = Jobs.NewOption();

        ExampleCommand command = new(
            "measure",
            "Measures the leaves on photos: share of the area that is stippled, yellowed, browned, chewed.",
            "leafscan measure rose.jpg",
            "leafscan measure photos --json readings.json --masks masks --overlays overlays",
            "leafscan measure spruce-july.jpg --kind twig --healthy spruce-may.jpg")
        {
            photos, json, masks, overlays, kind, healthy, jobs,
        };
        command.SetAction((parsed, cancel) =>
        {
            MeasureOptions how = PrinterScale.Options(parsed, world, parsed.GetValue(kind));
            MeasureJob job = new()
            {
                Options = parsed.GetValue(healthy) is { } sound ? how with { Healthy = HealthyOption.Read(world, sound, how, "Nothing was measured.", cancel).Colour } : how,
                MasksFolder = parsed.GetValue(masks),
                OverlaysFolder = parsed.GetValue(overlays),
                Workers = parsed.GetValue(jobs),
            };
            return RunAsync(parsed, world, parsed.GetValue(photos)!, job, parsed.GetValue(json), cancel);
        });
        return command;
    }

    private static async Task<int> RunAsync(
        ParseResult parsed, Surroundings world, string[] paths, MeasureJob job, string? json, CancellationToken cancel)
    {
        PhotoInputs inputs = await PhotoInputs.ListAsync(paths, world.Time, cancel).ConfigureAwait(false);
        MakeFolders(job);
        int finished = 0;
        IReadOnlyList<PhotoResult> results;
        try
        {
            using ProgressTeller progress = new(world, "Measuring", inputs.Items.Count);
            results = await MeasureRun.MeasureAsync(
                inputs.Items,
                job,
                _ =>
                {
                    finished++;
                    progress.Step();
                },
                error => Trouble.Log(parsed, world, error),
                cancel).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            string pictures = job.MasksFolder is null && job.OverlaysFolder is null ? string.Empty : " Masks and overlays of those are whole.";
            string document = json is null ? string.Empty : " No JSON was written.";
            world.Err.WriteLine($"Stopped: {finished} of {inputs.Items.Count} photos were done.{pictures}{document} Run the same command again.");
            return ExitCode.Stopped;
        }

        ReadingDocument reading = new()
        {
            Tool = ToolVersion.Current,
            Photos = [.. results.Select(result => result.Reading).OfType<PhotoReading>()],
            Refused = [.. inputs.Problems.Concat(results.Select(result => result.Refusal).OfType<PhotoRefusal>())],
        };
        return Tell(world, reading, inputs, json);
    }

    private static int Tell(Surroundings world, ReadingDocument reading, PhotoInputs inputs, string? json)
    {
        if (json is not null)
        {
            JsonOut.WriteText(world, json, ReadingJson.Write(reading));
        }

        if (json != JsonOut.StandardOutput && reading.Photos.Count > 0)
        {
            MeasureTable.Write(world.Out, reading.Photos);
        }

        RefusalLines.Write(world, inputs.Skipped);
        RefusalLines.Write(world, reading.Refused);
        string counts = $"{Words.Count(reading.Photos.Count, "photo")} measured, {reading.Refused.Count} refused.";
        if (reading.Photos.Count == 0)
        {
            string why = reading.Refused.Count == 0 ? "No photo was found there. LeafScan reads JPEG, PNG and HEIC." : counts;
            world.Err.WriteLine("Nothing could be measured. " + why);
            return ExitCode.NothingMeasurable;
        }

        world.Err.WriteLine(counts);
        return reading.Refused.Count > 0 ? ExitCode.SomeRefused : ExitCode.Done;
    }

    // Before the first photo: a folder that cannot be made is better known now than after an hour.
    private static void MakeFolders(MeasureJob job)
    {
        foreach (string? folder in new[] { job.MasksFolder, job.OverlaysFolder })
        {
            try
            {
                if (folder is not null)
                {
                    Directory.CreateDirectory(folder);
                }
            }
            catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException)
            {
                throw new CommandException(
                    ExitCode.StoreTrouble, $"The folder \"{folder}\" cannot be made: {error.Message} Nothing was measured. Name another folder.", error);
            }
        }
    }
}
