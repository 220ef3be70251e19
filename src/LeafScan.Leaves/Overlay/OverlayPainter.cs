using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Overlay;

/// <summary>
/// Draws what was found over the photo, so that a person can agree or disagree: the outline with a dark halo, each kind
/// of tissue in its colour and pattern, and a legend in words below.
/// </summary>
public static class OverlayPainter
{
    /// <summary>Draws the overlay.</summary>
    /// <param name="photo">The photo that was measured; not changed.</param>
    /// <param name="mask">Its mask of <see cref="MaskCode"/> values, same size; not changed.</param>
    /// <param name="reading">Its reading.</param>
    /// <param name="options">Size; null for the defaults.</param>
    /// <returns>8-bit B G R picture: the photo, scaled, with the legend below unless that is off. The caller disposes it.</returns>
    /// <exception cref="ArgumentException">The mask is not as large as the photo.</exception>
    public static Mat Paint(Photo photo, Mat mask, PhotoReading reading, OverlayOptions? options = null)
    {
        if (mask.Size() != photo.Pixels.Size())
        {
            throw new ArgumentException($"The mask is {mask.Size()}, the photo {photo.Pixels.Size()}.", nameof(mask));
        }

        options ??= new OverlayOptions();
        double scale = Scale(Math.Max(photo.Pixels.Cols, photo.Pixels.Rows), options);
        Size size = new(Math.Max(1, Math.Round(photo.Pixels.Cols * scale)), Math.Max(1, Math.Round(photo.Pixels.Rows * scale)));
        int stroke = Math.Max(1, (int)Math.Round(Math.Max(size.Width, size.Height) / 900.0));

        using Mat picture = new();
        Cv2.Resize(photo.Pixels, picture, size, 0, 0, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Cubic);
        using Mat codes = new();
        Cv2.Resize(mask, codes, size, 0, 0, InterpolationFlags.Nearest);

        OverlayHatch.Paint(picture, codes, stroke);
        DrawRings(picture, codes, stroke);
        for (int i = 0; i < reading.Leaves.Count; i++)
        {
            DrawOutline(picture, reading.Leaves[i], scale, stroke, reading.Leaves.Count > 1 ? i + 1 : null);
        }

        if (!options.Legend)
        {
            return picture.Clone();
        }

        // A photo too narrow for words gets an empty strip beside it.
        int widthMin = 360 * stroke;
        if (picture.Cols < widthMin)
        {
            Cv2.CopyMakeBorder(picture, picture, 0, 0, 0, widthMin - picture.Cols, BorderTypes.Constant, OverlayLegend.Paper);
        }

        using Mat legend = OverlayLegend.Draw(reading, picture.Cols, stroke);
        Mat whole = new();
        Cv2.VConcat([picture, legend], whole);
        return whole;
    }

    private static double Scale(int longSide, OverlayOptions options) =>
        longSide > options.LongSideMaxPx ? options.LongSideMaxPx / (double)longSide
        : longSide < options.LongSideMinPx ? Math.Min(4, Math.Ceiling(options.LongSideMinPx / (double)longSide))
        : 1;

    private static void DrawRings(Mat picture, Mat codes, int stroke)
    {
        foreach (OverlayStyle style in OverlayStyle.All.Where(style => style.Pattern == HatchPattern.Ring))
        {
            using Mat patches = new();
            Cv2.Compare(codes, new Scalar((int)style.Code), patches, CmpTypes.EQ);
            Cv2.FindContours(patches, out Point[][] rings, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
            Cv2.DrawContours(picture, rings, -1, Scalar.Black, stroke + 1, LineTypes.AntiAlias);
            Cv2.DrawContours(picture, rings, -1, style.Colour, stroke, LineTypes.AntiAlias);
        }
    }

    private static void DrawOutline(Mat picture, LeafReading leaf, double scale, int stroke, int? number)
    {
        if (leaf.Outline.Count < 2)
        {
            return;
        }

        // Half a pixel: the centre of a large pixel when a small photo was enlarged.
        Point[] corners = [.. leaf.Outline.Select(corner => new Point(
            (int)Math.Round(((corner.X + 0.5) * scale) - 0.5), (int)Math.Round(((corner.Y + 0.5) * scale) - 0.5)))];
        Cv2.Polylines(picture, [corners], true, Scalar.Black, (stroke * 3) + 3, LineTypes.AntiAlias);
        Cv2.Polylines(picture, [corners], true, Scalar.White, stroke + 1, LineTypes.AntiAlias);
        if (number is { } count)
        {
            Point top = corners.MinBy(corner => corner.Y);
            OverlayText.WriteWithHalo(picture, $"leaf {count}", new Point(top.X + (6 * stroke), Math.Max(top.Y, 24 * stroke)), stroke);
        }
    }
}
