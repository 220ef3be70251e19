using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using LeafScan.Records;
using LeafScan.Walks.Foliage;
using LeafScan.Web.Measuring;
using LeafScan.Web.Uploads;

namespace LeafScan.Web.Drawing;

/// <summary>
/// Lines up whole-plant photos of two days and keeps what came out of it: the figures here, the picture among what was drawn. Both
/// photos have to be measured for it, so it is done once, and again only when a photo of the two days or its reading is another one.
/// </summary>
internal sealed class ViewsDrawer(RecordStore store, PhotoFiles files, MeasureGate gate, DrawnRoom room)
{
    // A person looks at one plant at a time.
    private const int MostKept = 32;

    private readonly Lock _one = new();
    private readonly Dictionary<string, LinedUpViews> _kept = [];
    private readonly Queue<string> _order = new();

    /// <summary>The two views, or why they cannot be lined up.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="earlier">Day of the first.</param>
    /// <param name="later">Day of the second.</param>
    /// <param name="cancel">Stops while it waits for its turn.</param>
    public async Task<LinedUpViews> LineUpAsync(Plant plant, DateOnly earlier, DateOnly later, CancellationToken cancel)
    {
        string path = Path.Combine(files.Drawn, $"views-{Key(plant, earlier, later)}.jpg");
        return Known(path) ?? await gate.RunAsync(() => Known(path) ?? LineUp(plant, earlier, later, path), cancel).ConfigureAwait(false);
    }

    private LinedUpViews? Known(string path)
    {
        lock (_one)
        {
            if (!_kept.TryGetValue(path, out LinedUpViews? known) || !File.Exists(path))
            {
                return null;
            }

            room.Seen(path);
            return known;
        }
    }

    // What could not be lined up is tried again when somebody asks: the file may be back.
    private LinedUpViews LineUp(Plant plant, DateOnly earlier, DateOnly later, string path)
    {
        Directory.CreateDirectory(files.Drawn);
        LinedUpViews views = PlantViews.LineUp(store, plant, On(earlier), On(later), path, Options.For(store.Folder) with { Kind = "plant" }, CancellationToken.None);
        if (views.Change is not null)
        {
            room.Tidy();
            lock (_one)
            {
                if (_kept.TryAdd(path, views))
                {
                    _order.Enqueue(path);
                }

                while (_order.Count > MostKept)
                {
                    _kept.Remove(_order.Dequeue());
                }
            }
        }

        return views;
    }

    private static ViewTime On(DateOnly day) => new(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), other => other == day);

    private string Key(Plant plant, DateOnly earlier, DateOnly later)
    {
        IEnumerable<string> photos = store.PhotosOfPlant(plant.Id).Where(photo => photo.Kind == "plant" && (photo.WalkedOn == earlier || photo.WalkedOn == later))
            .Select(photo => FormattableString.Invariant($"{photo.Sha256} {photo.WalkedOn:O} {store.ReadingsOfPhoto(photo.Id)[0].Id}"));
        string all = string.Join('\n', photos.Prepend(FormattableString.Invariant($"{plant.Id} {earlier:O} {later:O} {plant.Facts.Healthy?.Colour.Sha256}")));
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(all)))[..32];
    }
}
