using System.Globalization;
using LeafScan.Leaves;
using LeafScan.Leaves.Views;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Records;

namespace LeafScan.Walks.Foliage;

/// <summary>Whole-plant photos of one plant from two times, lined up.</summary>
public static class PlantViews
{
    // Photos of one time that are tried: a person takes one or two of each side.
    private const int MostOfATime = 4;

    /// <summary>Lines up the two photos that go together first and writes the picture. It opens and measures up to eight photos.</summary>
    /// <param name="store">The record.</param>
    /// <param name="plant">The plant.</param>
    /// <param name="earlier">When the first photo was taken.</param>
    /// <param name="later">When the second one was.</param>
    /// <param name="picture">JPEG to write; an existing one is overwritten.</param>
    /// <param name="options">How photos are measured, without a healthy photo.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static LinedUpViews LineUp(RecordStore store, Plant plant, ViewTime earlier, ViewTime later, string picture, MeasureOptions options, CancellationToken cancel)
    {
        PhotoOnRecord[] all = [.. store.PhotosOfPlant(plant.Id).Where(photo => photo.Kind == "plant")];
        using Shown before = Open(store, plant, all, earlier, options, cancel);
        using Shown after = Open(store, plant, all, later, options, cancel);
        if (before.Views.Count == 0 || after.Views.Count == 0)
        {
            ViewTime empty = before.Views.Count == 0 ? earlier : later;
            return LinedUpViews.Not($"No whole-plant photo of {plant.Code} from {empty.Words} can be opened and measured.", "Photos are looked for where they were when they were measured: bring them back there.");
        }

        LinedUpViews? last = null;
        foreach ((PhotoOnRecord then, PlantView first) in before.Views)
        {
            foreach ((PhotoOnRecord now, PlantView second) in after.Views)
            {
                cancel.ThrowIfCancellationRequested();
                using ViewComparison compared = ViewComparison.Of(first, second, (Day(then.WalkedOn), Day(now.WalkedOn)));
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

    private static Shown Open(RecordStore store, Plant plant, PhotoOnRecord[] all, ViewTime time, MeasureOptions options, CancellationToken cancel)
    {
        List<(PhotoOnRecord, PlantView)> views = [];
        foreach (PhotoOnRecord photo in all.Where(photo => time.Holds(photo.WalkedOn)).OrderByDescending(photo => photo.WalkedOn).ThenBy(photo => photo.Id).Take(MostOfATime))
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

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

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
