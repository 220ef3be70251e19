using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Leaves.Views;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Cli.Commands;

/// <summary>compare --picture: whole-plant photos of one plant from two months, lined up.</summary>
internal static class CompareViews
{
    // Photos of one month that are tried: a person takes one or two of each side.
    private const int MostOfAMonth = 4;

    /// <summary>A new option.</summary>
    public static Option<string?> NewPictureOption()
    {
        Option<string?> picture = new("--picture")
        {
            Description = "With one plant and --kind plant: lines up a photo of each month, says what has changed in each part of the plant and draws it into this JPEG.",
            HelpName = "FILE",
        };
        picture.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && !Path.GetExtension(result.Tokens[0].Value).ToLowerInvariant().StartsWith(".jp", StringComparison.Ordinal))
            {
                result.AddError($"--picture writes a JPEG: name a file such as change.jpg, not \"{result.Tokens[0].Value}\".");
            }
        });
        return picture;
    }

    /// <summary>Whether the picture can be asked for.</summary>
    /// <exception cref="CommandException">It needs one plant and the kind plant.</exception>
    public static void Check(string? picture, string? code, string? kind)
    {
        if (picture is not null && (code is null || kind != "plant"))
        {
            throw new CommandException(ExitCode.WrongUse, "--picture lines up photos of one whole plant: name it and add --kind plant. Nothing was done.");
        }
    }

    /// <summary>Lines up the two photos of the months that go together best and writes the picture.</summary>
    public static LinedUpViews LineUp(RecordStore store, Plant plant, Month from, Month to, string picture, MeasureOptions options, CancellationToken cancel)
    {
        PhotoOnRecord[] all = [.. store.PhotosOfPlant(plant.Id).Where(photo => photo.Kind == "plant")];
        using Shown earlier = Open(store, plant, all, from, options, cancel);
        using Shown later = Open(store, plant, all, to, options, cancel);
        if (earlier.Views.Count == 0 || later.Views.Count == 0)
        {
            Month empty = earlier.Views.Count == 0 ? from : to;
            return LinedUpViews.Not($"No whole-plant photo of {plant.Code} from {empty} can be opened and measured.", "Photos are looked for where they were when they were measured: bring them back there.");
        }

        LinedUpViews? last = null;
        foreach ((PhotoOnRecord then, PlantView first) in earlier.Views)
        {
            foreach ((PhotoOnRecord now, PlantView second) in later.Views)
            {
                cancel.ThrowIfCancellationRequested();
                using ViewComparison compared = ViewComparison.Of(first, second, (Words.Day(then.WalkedOn), Words.Day(now.WalkedOn)));
                if (compared.Change is { } change)
                {
                    PictureWriter.WriteJpeg(compared.Picture!, picture);
                    return new LinedUpViews(then.FileName, then.WalkedOn, now.FileName, now.WalkedOn, change, null, null, picture);
                }

                last ??= LinedUpViews.Not(compared.Refusal!.Value.Reason, compared.Refusal.Value.Advice);
            }
        }

        return last!;
    }

    private static Shown Open(RecordStore store, Plant plant, PhotoOnRecord[] all, Month month, MeasureOptions options, CancellationToken cancel)
    {
        List<(PhotoOnRecord, PlantView)> views = [];
        foreach (PhotoOnRecord photo in all.Where(photo => month.Holds(photo.WalkedOn)).OrderByDescending(photo => photo.WalkedOn).ThenBy(photo => photo.Id).Take(MostOfAMonth))
        {
            using PhotoOutcome outcome = PhotoReader.Open(photo.PathSeen, new PhotoLimits(), cancel);
            if (outcome.Photo is not { } picture || picture.Facts.Sha256 != photo.Sha256)
            {
                continue;
            }

            using LeafMeasurement measured = LeafMeter.Measure(picture, options.AsMeasured(plant, store.ReadingsOfPhoto(photo.Id)[0].Origin) with { Kind = "plant" }, cancel);
            if (PlantView.Of(picture, measured) is { } view)
            {
                views.Add((photo, view));
            }
        }

        return new Shown(views);
    }

    private sealed record Shown(IReadOnlyList<(PhotoOnRecord Photo, PlantView View)> Views) : IDisposable
    {
        public void Dispose()
        {
            foreach ((PhotoOnRecord _, PlantView view) in Views)
            {
                view.Dispose();
            }
        }
    }
}

/// <summary>Two photos of a plant lined up, or why not.</summary>
/// <param name="EarlierFile">The earlier photo.</param>
/// <param name="EarlierDay">Its day.</param>
/// <param name="LaterFile">The later photo.</param>
/// <param name="LaterDay">Its day.</param>
/// <param name="Change">What has changed; null when they cannot be lined up.</param>
/// <param name="Reason">Why not.</param>
/// <param name="Advice">What to do.</param>
/// <param name="Picture">File with both and the map of change.</param>
internal sealed record LinedUpViews(string? EarlierFile, DateOnly? EarlierDay, string? LaterFile, DateOnly? LaterDay, PlantChange? Change, string? Reason, string? Advice, string? Picture)
{
    /// <summary>They cannot.</summary>
    public static LinedUpViews Not(string reason, string advice) => new(null, null, null, null, null, reason, advice, null);
}
