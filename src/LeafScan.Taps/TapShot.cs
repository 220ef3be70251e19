using LeafScan.Photos;
using LeafScan.Taps.Paper;
using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps;

/// <summary>
/// What is kept of one photo of the sheet: its specks and how dark each place is. The photo itself can go at once, so
/// that memory holds one decoded photo whatever their number.
/// </summary>
public sealed class TapShot : IDisposable
{
    // Blue, green, red: more weight on blue than the eye gives it, since pale yellow and orange things are darkest there.
    private static readonly float[] Weights = [0.3f, 0.5f, 0.2f];

    private TapShot(ShadeMap map)
    {
        Map = map;
    }

    /// <summary>File name of the photo.</summary>
    public required string FileName { get; init; }

    /// <summary>Fingerprint of the photo's file.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Width of the upright photo, pixels.</summary>
    public required int WidthPx { get; init; }

    /// <summary>Height of the upright photo, pixels.</summary>
    public required int HeightPx { get; init; }

    /// <summary>Capture time by the camera's clock; null when unknown.</summary>
    public required CaptureTime? Taken { get; init; }

    /// <summary>Doubts about the photo file itself.</summary>
    public required IReadOnlyList<string> PhotoFlags { get; init; }

    /// <summary>Share of the photo that is white sheet, 0..1.</summary>
    public required double SheetShare { get; init; }

    internal ShadeMap Map { get; }

    internal IReadOnlyList<Spot> Spots { get; init; } = [];

    /// <summary>How the hand moved while the shutter was open; null when the specks show no such smear.</summary>
    internal Shake? Shake { get; init; }

    /// <summary>Variance by which the camera spread a point, pixels squared, smoothing included; 0 when nothing on the sheet says it.</summary>
    internal double PointSpread { get; init; }

    internal double Threshold { get; init; }

    internal double BurntShare { get; init; }

    internal double StepShare { get; init; }

    internal IReadOnlyList<Point2d> SheetCorners { get; init; } = [];

    internal double JudgedShare { get; init; }

    internal double DiagonalPx => Math.Sqrt(((double)WidthPx * WidthPx) + ((double)HeightPx * HeightPx));

    /// <summary>Looks at one photo.</summary>
    /// <param name="photo">The photo; not changed, may be disposed afterwards.</param>
    /// <param name="options">Limits.</param>
    /// <param name="sheet">Where the printed sheet lies in it, when its marks were read; else null.</param>
    public static TapShot Look(Photo photo, TapOptions options, SheetPlace? sheet = null)
    {
        using Mat grey = new();
        using (Mat weights = Mat.FromPixelData(1, 3, MatType.CV_32FC1, Weights))
        {
            Cv2.Transform(photo.Pixels, grey, weights);
        }

        using SheetMask mask = SheetMask.Find(photo.Pixels, grey);
        ShadeMap map = ShadeMap.Of(grey, mask);
        try
        {
            double threshold = Math.Max(options.ShadeMin, options.SpeckNoise * map.Noise);
            double largest = sheet is null ? 40 : Math.Max(8, options.LargestMiteMm * sheet.PixelsPerMmAt(grey.Cols / 2.0, grey.Rows / 2.0));
            IReadOnlyList<Spot> all = SpotFinder.Find(map, threshold, largest);
            IReadOnlyList<Spot> spots = InField(all, sheet);
            Shake? shake = Shake.Of(spots);
            return new TapShot(map)
            {
                FileName = photo.Facts.FileName,
                Sha256 = photo.Facts.Sha256,
                WidthPx = grey.Cols,
                HeightPx = grey.Rows,
                Taken = photo.Facts.Taken,
                PhotoFlags = photo.Flags,
                SheetShare = mask.SheetShare,
                Spots = shake is null ? spots : [.. spots.Select(spot => spot.Steadied(shake, largest))],
                Shake = shake,
                PointSpread = CameraSpread.Of(map, all),
                Threshold = threshold,
                BurntShare = mask.BurntShare,
                StepShare = mask.StepShare,
                SheetCorners = mask.Corners,
                JudgedShare = Cv2.CountNonZero(mask.Judged) / (double)mask.Judged.Total(),
            };
        }
        catch
        {
            map.Dispose();
            throw;
        }
    }

    // Ruler, words and markers are specks too; what is printed lies outside the field.
    private static IReadOnlyList<Spot> InField(IReadOnlyList<Spot> spots, SheetPlace? sheet) =>
        sheet?.Field is null ? spots : [.. spots.Where(spot => sheet.IsInField(spot.X, spot.Y))];

    /// <inheritdoc />
    public void Dispose() => Map.Dispose();
}
