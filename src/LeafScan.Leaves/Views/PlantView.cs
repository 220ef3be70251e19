using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.Views;

/// <summary>A measured photo of a whole plant, small: what two of them are lined up by and compared on. Owns its pictures.</summary>
public sealed class PlantView : IDisposable
{
    // Large enough for tufts of a few centimetres at four metres, small enough that features are found in a moment.
    private const int LongSidePx = 1000;

    private PlantView(Mat pixels, Mat codes, LeafReading reading)
    {
        Pixels = pixels;
        Codes = codes;
        Reading = reading;
    }

    /// <summary>The photo, 8-bit B, G, R, long side 1000 pixels or less.</summary>
    internal Mat Pixels { get; }

    /// <summary><see cref="MaskCode"/> of each pixel.</summary>
    internal Mat Codes { get; }

    /// <summary>What was measured.</summary>
    public LeafReading Reading { get; }

    /// <summary>Makes it; null where no whole plant was measured.</summary>
    /// <param name="photo">The photo; not changed and not disposed.</param>
    /// <param name="measured">What was measured on it; not disposed.</param>
    public static PlantView? Of(Photo photo, LeafMeasurement measured)
        => measured is { Mask: { } mask, Reading.Leaves: [{ Crown: not null } plant] } ? Of(photo.Pixels, mask, plant) : null;

    /// <summary>The same of bare pictures.</summary>
    internal static PlantView Of(Mat pixels, Mat mask, LeafReading reading)
    {
        double scale = Math.Min(1, LongSidePx / (double)Math.Max(pixels.Cols, pixels.Rows));
        Mat small = new();
        Mat codes = new();
        AreaShrink.Into(pixels, small, scale);
        Cv2.Resize(mask, codes, small.Size(), 0, 0, InterpolationFlags.Nearest);
        return new PlantView(small, codes, reading);
    }

    /// <summary>255 where foliage is; the caller disposes it.</summary>
    internal Mat Foliage()
    {
        Mat inside = new();
        Cv2.Compare(Codes, new Scalar((int)MaskCode.Background), inside, CmpTypes.GT);
        return inside;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Pixels.Dispose();
        Codes.Dispose();
    }
}
