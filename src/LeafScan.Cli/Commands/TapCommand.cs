using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Cli.Taps;
using LeafScan.Frame;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Records;
using LeafScan.Taps;
using LeafScan.Taps.Overlay;
using OpenCvSharp;

namespace LeafScan.Cli.Commands;

/// <summary>tap: two or more photos of one white sheet in; what crawled out. With a plant it goes on record.</summary>
internal static class TapCommand
{
    private const double SecondsMost = 600;

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string[]> photos = new("PHOTO")
        {
            Description = "Two or more photos of the same white sheet, in the order they were taken; one alone gives candidates and no count.",
            Arity = ArgumentArity.OneOrMore,
        };
        photos.Validators.Add(result =>
        {
            foreach (string word in result.Tokens.Select(token => token.Value).Where(word => word.StartsWith('-') && !Path.Exists(word)))
            {
                result.AddError($"\"{word}\" is no option of tap and no file.");
            }
        });
        Option<double?> seconds = new("--seconds")
        {
            Description = "Seconds between one photo and the next; by default from the camera's clock.",
            HelpName = "S",
        };
        seconds.Validators.Add(result =>
        {
            if (result.Number() is { } value && value is not (> 0 and <= SecondsMost))
            {
                result.AddError($"--seconds takes a number above 0 and at most {SecondsMost:0}.");
            }
        });
        Option<string?> json = JsonOut.NewOption();
        Option<string?> overlay = new("--overlay") { Description = "Writes the first photo with every speck marked as JPEG.", HelpName = "FILE" };
        Option<string?> plant = new("--plant") { Description = "Code of the plant: keeps the tap on its record.", HelpName = "CODE" };
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<int?> mites = new("--mites") { Description = "Live mites counted with the lens on the same sheet, kept beside the photos' count; with --plant.", HelpName = "N" };
        TapNotes notes = new();
        ExampleCommand command = new(
            "tap",
            "Counts what crawls on a white sheet after a tap, from two or more photos some seconds apart.",
            "leafscan tap first.jpg second.jpg",
            "leafscan tap first.jpg second.jpg --seconds 8 --json - --overlay marked.jpg",
            "leafscan tap first.jpg second.jpg --plant EU-1 --strikes 5 --mites 4")
        {
            photos, seconds, json, overlay, plant, place, mites, TapAddCommand.Build(world), TapSetCommand.Build(world),
        };
        foreach (Option option in notes.Options)
        {
            command.Options.Add(option);
        }

        command.Validators.Add(result =>
        {
            if (result.GetResult(plant) is null && new Option[] { place, mites }.Concat(notes.Options).FirstOrDefault(option => result.GetResult(option) is { Implicit: false }) is { } lonely)
            {
                result.AddError($"{lonely.Name} says something of a tap that is kept: name the plant with --plant.");
            }
        });
        command.SetAction((parsed, cancel) =>
        {
            TapOptions options = new() { SecondsBetween = parsed.GetValue(seconds) };
            FrameOptions frame = PrinterScale.Options(parsed, world, null).Frame;
            string? target = JsonOut.Target(parsed, json);
            if (parsed.GetValue(plant) is not { } code)
            {
                return Task.FromResult(Run(world, parsed.GetValue(photos)!, options, frame, target, parsed.GetValue(overlay), null, cancel));
            }

            // Before anything is measured: a plant that is not there is said at once.
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Plant known = PlantChoice.One(store, code, parsed.GetValue(place));
            DateOnly today = DateOnly.FromDateTime(world.Time.GetLocalNow().DateTime);
            TapKeeper keeper = new(store, known, notes.Read(parsed, known.Id, today) with { MitesByLens = parsed.GetValue(mites) });
            return Task.FromResult(Run(world, parsed.GetValue(photos)!, options, frame, target, parsed.GetValue(overlay), keeper, cancel));
        });
        return command;
    }

    private static int Run(Surroundings world, string[] paths, TapOptions options, FrameOptions frame, string? json, string? overlay, TapKeeper? keeper, CancellationToken cancel)
    {
        List<TapShot> shots = [];
        List<SheetPlace> places = [];
        List<PhotoRefusal> refused = [];
        try
        {
            // One decoded photo at a time: what is kept of it is small.
            List<string> opens = [];
            foreach (string path in paths)
            {
                cancel.ThrowIfCancellationRequested();
                using PhotoOutcome opened = PhotoReader.Open(path, new PhotoLimits(), cancel);
                if (opened.Photo is { } photo)
                {
                    opens.Add(path);
                    keeper?.SeePhoto(photo.Facts);
                    SheetPlace? place = TapSheet.In(photo.Pixels, frame, cancel);
                    shots.Add(TapShot.Look(photo, options, place));
                    places.AddRange(place is null ? [] : [place]);
                }
                else
                {
                    refused.Add(opened.Refusal!);
                }
            }

            // Marks read in some of the photos only cannot line them up.
            options = options with { Sheets = places.Count == shots.Count ? places : [] };
            TapOutcome? outcome = shots.Count == 0 ? null : TapReader.Read(shots, options, cancel);
            string[] names = [.. shots.Select(shot => shot.FileName)];
            if (outcome?.Refusal is { } why)
            {
                refused.Add(new PhotoRefusal(string.Join(", ", names), why.Reason, why.Advice));
            }

            foreach (TapLeftOut left in outcome?.LeftOut ?? [])
            {
                refused.Add(new PhotoRefusal(names[left.Number], left.Why.Reason, left.Why.Advice));
            }

            TapOnRecord? kept = keeper?.Keep(outcome?.Reading);
            int code = Tell(
                world, TapDocument.Of(names, outcome?.Reading, refused, keeper?.Plant, kept), outcome?.Reading, refused, json, () => Mark(overlay, opens.ElementAtOrDefault(outcome?.Reading?.FirstPhoto ?? 0), outcome?.Reading));
            if (keeper is not null)
            {
                TextWriter where = json == JsonOut.StandardOutput ? world.Err : world.Out;
                where.WriteLine(keeper.Sentence(kept));
            }

            return code;
        }
        catch (OperationCanceledException)
        {
            world.Err.WriteLine("Stopped: nothing was written. Run the same command again.");
            return ExitCode.Stopped;
        }
        finally
        {
            shots.ForEach(shot => shot.Dispose());
        }
    }

    private static int Tell(Surroundings world, object document, TapReading? reading, List<PhotoRefusal> refused, string? json, Action mark)
    {
        mark();
        if (json is not null)
        {
            JsonOut.Write(world, json, document);
        }

        if (reading is not null && json != JsonOut.StandardOutput)
        {
            TapWords.Write(world.Out, reading);
        }

        RefusalLines.Write(world, refused);
        if (reading is null)
        {
            world.Err.WriteLine("Nothing could be counted.");
            return ExitCode.NothingMeasurable;
        }

        return refused.Count > 0 ? ExitCode.SomeRefused : ExitCode.Done;
    }

    private static void Mark(string? overlay, string? path, TapReading? reading)
    {
        if (overlay is null || path is null || reading is null)
        {
            return;
        }

        using PhotoOutcome first = PhotoReader.Open(path, new PhotoLimits());
        if (first.Photo is { } photo)
        {
            using Mat picture = TapOverlayPainter.Paint(photo, reading);
            PictureWriter.WriteJpeg(picture, overlay);
        }
    }
}
