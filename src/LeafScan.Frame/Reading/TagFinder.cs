using LeafScan.Frame.Tags;
using OpenCvSharp;
using ZXing;
using ZXing.Common;
using ZXing.Multi.QrCode;
using ZXing.QrCode.Internal;

namespace LeafScan.Frame.Reading;

/// <summary>Finds and reads the QR codes of plant tags.</summary>
internal static class TagFinder
{
    private static readonly Dictionary<DecodeHintType, object> Hints = new() { [DecodeHintType.TRY_HARDER] = true, [DecodeHintType.CHARACTER_SET] = "UTF-8" };

    /// <summary>How much larger a picture is made for a closer look, and the blur in pixels whose edges are raised: the two that read most of the drawn tags.</summary>
    private static readonly (double Factor, double SigmaPx)[] Enlarged = [(2, 3), (3, 4)];

    private const double Raise = 2.5;

    private const int MostLongSidePx = 3200;

    /// <summary>The tags that can be read; codes of others are passed over.</summary>
    /// <param name="small">Small copy of the photo, 8-bit grey.</param>
    /// <param name="scale">Small over full.</param>
    public static IReadOnlyList<TagSighting> Find(Mat small, double scale) => [.. Codes(small).Select(code => Sighting(code, scale)).OfType<TagSighting>()];

    /// <summary>The same, and whether a code is there that could not be read at all.</summary>
    /// <param name="small">Small copy of the photo, 8-bit grey.</param>
    /// <param name="scale">Small over full.</param>
    public static (IReadOnlyList<TagSighting> Tags, bool Unread) Look(Mat small, double scale)
    {
        Result[] codes = Codes(small);
        return ([.. codes.Select(code => Sighting(code, scale)).OfType<TagSighting>()], codes.Length == 0 && CodeShape.IsIn(small));
    }

    /// <summary>
    /// Tries harder where a tag is believed to be: the picture made larger and its edges raised, so that squares of two pixels or a slight
    /// blur can be told apart. Costs about ten times a first look.
    /// </summary>
    /// <param name="grey">The photo, 8-bit grey.</param>
    /// <returns>The tags, and whether any code at all could be read.</returns>
    public static (IReadOnlyList<TagSighting> Tags, bool AnyCode) Closer(Mat grey)
    {
        int longSide = Math.Max(grey.Cols, grey.Rows);
        foreach ((double factor, double sigmaPx) in Enlarged)
        {
            double scale = Math.Min(factor, Math.Max(1, MostLongSidePx / (double)longSide));
            using Mat large = new();
            Cv2.Resize(grey, large, default, scale, scale, InterpolationFlags.Cubic);
            using Mat soft = new();
            Cv2.GaussianBlur(large, soft, default, sigmaPx);
            Cv2.AddWeighted(large, 1 + Raise, soft, -Raise, 0, large);
            if (Codes(large) is { Length: > 0 } codes)
            {
                return ([.. codes.Select(code => Sighting(code, scale)).OfType<TagSighting>()], true);
            }
        }

        return ([], false);
    }

    private static Result[] Codes(Mat small)
    {
        small.GetArray(out byte[] levels);
        BinaryBitmap bitmap = new(new HybridBinarizer(new RGBLuminanceSource(levels, small.Cols, small.Rows, RGBLuminanceSource.BitmapFormat.Gray8)));
        return new QRCodeMultiReader().decodeMultiple(bitmap, Hints) ?? [];
    }

    private static TagSighting? Sighting(Result code, double scale)
    {
        if (TagText.Read(code.Text) is not { } text || code.ResultPoints is not { Length: >= 3 } at)
        {
            return null;
        }

        // The reader gives the middles of the three finder squares: lower left, upper left, upper right. They lie 3.5
        // modules inside the code (ISO/IEC 18004), so their distance is that much shorter than its side.
        double across = Distance(at[1], at[2]);
        double down = Distance(at[0], at[1]);
        double module = (at[0] is FinderPattern a && at[1] is FinderPattern b && at[2] is FinderPattern c)
            ? (a.EstimatedModuleSize + b.EstimatedModuleSize + c.EstimatedModuleSize) / 3
            : Math.Sqrt(across * down) / 18;
        int modules = (int)Math.Round(((Math.Sqrt(across * down) / module) + 7 - 17) / 4) * 4 + 17;
        double side = Math.Sqrt(across * down) * modules / (modules - 7.0);
        return new TagSighting(
            text, (((at[0].X + at[2].X) / 2) + 0.5) / scale - 0.5, (((at[0].Y + at[2].Y) / 2) + 0.5) / scale - 0.5, side / scale / text.SideMm);
    }

    private static double Distance(ResultPoint a, ResultPoint b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));
}
