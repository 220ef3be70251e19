using LeafScan.Leaves;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Training.Look;

/// <summary>
/// Looks at all leaves of a folder. What is sound and what is a speck comes from the measuring itself, for rendered and
/// real photos alike, so that both are judged by the same eye; where a mask of the outline lies beside a photo, only
/// tissue inside it counts.
/// </summary>
public static class LookFolder
{
    /// <summary>Looks at the photos of a folder whose names begin with a word.</summary>
    /// <param name="folder">Folder, optionally followed by a colon and the beginning of the names, such as "bean-field:healthy".</param>
    /// <param name="cancel">Stops between photos.</param>
    public static IReadOnlyList<LeafLook> Of(string folder, CancellationToken cancel)
    {
        string[] parts = folder.Split(':', 2);
        string start = parts.Length > 1 ? parts[1] : "";
        List<LeafLook> looks = [];
        foreach (string path in Directory.EnumerateFiles(parts[0], "*", SearchOption.AllDirectories).Order(NaturalOrder.Comparer))
        {
            string name = Path.GetFileName(path);
            bool photo = Path.GetExtension(name) is ".jpg" or ".png" && !name.Contains(".mask.", StringComparison.Ordinal)
                && !name.Contains(".truth.", StringComparison.Ordinal) && !name.Contains(".cutout.", StringComparison.Ordinal)
                && !name.Contains(".votes.", StringComparison.Ordinal) && !name.Contains(".base.", StringComparison.Ordinal);
            cancel.ThrowIfCancellationRequested();
            if (photo && name.StartsWith(start, StringComparison.Ordinal) && One(path) is { } look)
            {
                looks.Add(look);
            }
        }

        return looks;
    }

    private static LeafLook? One(string path)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits());
        if (outcome.Photo is not { } photo)
        {
            return null;
        }

        using LeafMeasurement measured = LeafMeter.Measure(photo, new MeasureOptions());
        if (measured.Mask is not { } codes)
        {
            return null;
        }

        string outline = Path.ChangeExtension(path, null) + ".mask.png";
        if (File.Exists(outline))
        {
            using Mat mask = Cv2.ImRead(outline, ImreadModes.Grayscale);
            using Mat outside = new();
            Cv2.Compare(mask, 128, outside, CmpTypes.LT);
            codes.SetTo(Scalar.All((int)MaskCode.Background), outside);
        }

        return LeafLook.Of(photo.Pixels, codes);
    }
}
