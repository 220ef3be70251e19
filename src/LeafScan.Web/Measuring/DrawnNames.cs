using System.Globalization;
using LeafScan.Records;
using LeafScan.Web.Uploads;

namespace LeafScan.Web.Measuring;

/// <summary>
/// Names of pictures that were drawn. A mask and an overlay belong to one reading: its time stands in the name, so that a picture of an
/// older reading is never taken for the current one.
/// </summary>
internal static class DrawnNames
{
    public static string Mask(PhotoFiles files, PhotoOnRecord photo, ReadingOnRecord reading) => Path.Combine(files.Drawn, $"{photo.Sha256}-{Stamp(reading)}.mask.png");

    public static string Overlay(PhotoFiles files, PhotoOnRecord photo, ReadingOnRecord reading, int edge)
        => Path.Combine(files.Drawn, string.Create(CultureInfo.InvariantCulture, $"{photo.Sha256}-{Stamp(reading)}.overlay-{edge}.jpg"));

    public static string Picture(PhotoFiles files, PhotoOnRecord photo, int edge)
        => Path.Combine(files.Drawn, string.Create(CultureInfo.InvariantCulture, $"{photo.Sha256}.picture-{edge}.jpg"));

    /// <summary>Gives the mask that measuring just wrote its name for good.</summary>
    public static void KeepMask(RecordStore store, PhotoFiles files, PhotoOnRecord photo)
    {
        string fresh = Path.Combine(files.Drawn, photo.Sha256 + ".mask.png");
        if (File.Exists(fresh))
        {
            File.Move(fresh, Mask(files, photo, store.ReadingsOfPhoto(photo.Id)[0]), overwrite: true);
        }
    }

    /// <summary>Removes masks and overlays of older readings; nobody asks for them any more.</summary>
    public static void DropOlder(PhotoFiles files, PhotoOnRecord photo, ReadingOnRecord current)
    {
        if (!Directory.Exists(files.Drawn))
        {
            return;
        }

        foreach (string old in Directory.EnumerateFiles(files.Drawn, photo.Sha256 + "-*").Where(file => !Path.GetFileName(file).StartsWith($"{photo.Sha256}-{Stamp(current)}", StringComparison.Ordinal)))
        {
            PhotoFiles.TryDelete(old);
        }
    }

    private static string Stamp(ReadingOnRecord reading) => reading.MeasuredAt.UtcDateTime.ToString("yyyyMMdd'T'HHmmssfff", CultureInfo.InvariantCulture);
}
