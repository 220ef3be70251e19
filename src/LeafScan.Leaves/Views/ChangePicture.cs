using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Overlay;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Views;

/// <summary>Draws two lined-up photos of a plant and, beside them, where it is worse and where it is better.</summary>
internal static class ChangePicture
{
    // Single tufts move in the wind: change is shown over patches of this share of the root of the crown's area.
    private const double Patch = 0.05;

    // Change of a patch's harm from which it is shown.
    private const double ShownFrom = 0.2;

    private static readonly OverlayStyle Worse = new(MaskCode.Browned, "worse: discoloured or gone", new Scalar(0, 94, 213), HatchPattern.Rising, 0.35);
    private static readonly OverlayStyle Better = new(MaskCode.Sound, "better: green again or filled", new Scalar(178, 114, 0), HatchPattern.Level, 0.3);

    /// <summary>Draws.</summary>
    /// <param name="earlier">The earlier photo.</param>
    /// <param name="earlierCodes">Its <see cref="MaskCode"/>s.</param>
    /// <param name="later">The later photo, lined up.</param>
    /// <param name="laterCodes">Its codes, lined up.</param>
    /// <param name="full">255 inside the crown's outline in either.</param>
    /// <param name="names">What is written over each.</param>
    public static Mat Draw(Mat earlier, Mat earlierCodes, Mat later, Mat laterCodes, Mat full, (string Earlier, string Later) names)
    {
        using Mat change = Change(earlierCodes, laterCodes, full);
        using Mat map = new();
        Cv2.CvtColor(later, map, ColorConversionCodes.BGR2GRAY);
        Cv2.CvtColor(map, map, ColorConversionCodes.GRAY2BGR);
        map.ConvertTo(map, MatType.CV_8UC3, 0.6, 80);
        Hatch(map, change);
        Rect box = Around(full);
        Mat[] parts = [.. new[] { (earlier, names.Earlier), (later, names.Later), (map, "change") }.Select(part => Titled(part.Item1, full, box, part.Item2))];
        using Mat row = new();
        Cv2.HConcat(parts, row);
        Array.ForEach(parts, part => part.Dispose());
        using Mat legend = Legend(row.Cols);
        Mat whole = new();
        Cv2.VConcat([row, legend], whole);
        return whole;
    }

    // Harm of each patch later less earlier, -1 to 1; 0 outside the crown.
    private static Mat Change(Mat earlier, Mat later, Mat full)
    {
        double reach = Math.Max(3, Patch * Math.Sqrt(Cv2.CountNonZero(full)));
        using Mat before = Harm(earlier, full, reach);
        using Mat after = Harm(later, full, reach);
        Mat change = new();
        Cv2.Subtract(after, before, change);
        using Mat outside = new();
        Cv2.BitwiseNot(full, outside);
        change.SetTo(Scalar.All(0), outside);
        return change;
    }

    private static Mat Harm(Mat codes, Mat full, double reach)
    {
        using Mat hurt = new(codes.Size(), MatType.CV_32FC1, Scalar.All(0));
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> code = codes.AsRow<byte>(y);
            Span<float> to = hurt.AsRow<float>(y);
            for (int x = 0; x < code.Length; x++)
            {
                to[x] = code[x] is (byte)MaskCode.Background or (byte)MaskCode.Yellowed or (byte)MaskCode.Browned ? 1 : 0;
            }
        }

        using Mat outside = new();
        Cv2.BitwiseNot(full, outside);
        hurt.SetTo(Scalar.All(0), outside);
        using Mat weight = new();
        full.ConvertTo(weight, MatType.CV_32FC1, 1 / 255.0);
        Mat share = new();
        Cv2.GaussianBlur(hurt, share, default, reach);
        Cv2.GaussianBlur(weight, weight, default, reach);
        Cv2.Add(weight, new Scalar(1e-3), weight);
        Cv2.Divide(share, weight, share);
        return share;
    }

    private static void Hatch(Mat picture, Mat change)
    {
        int rows = change.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> by = change.AsRow<float>(y);
            Span<Vec3b> pixels = picture.AsRow<Vec3b>(y);
            for (int x = 0; x < by.Length; x++)
            {
                OverlayStyle? style = by[x] >= ShownFrom ? Worse : by[x] <= -ShownFrom ? Better : null;
                if (style is not null)
                {
                    double share = OverlayHatch.Ink(style.Pattern, x, y, 2) == 2 ? 0.95 : style.Tint;
                    pixels[x] = new Vec3b(Mix(pixels[x].Item0, style.Colour.Val0, share), Mix(pixels[x].Item1, style.Colour.Val1, share), Mix(pixels[x].Item2, style.Colour.Val2, share));
                }
            }
        }
    }

    private static byte Mix(byte under, double over, double share) => (byte)Math.Round((under * (1 - share)) + (over * share));

    private static Rect Around(Mat full)
    {
        Rect box = Cv2.BoundingRect(full);
        int edge = Math.Max(box.Width, box.Height) / 12;
        return new Rect(box.X - edge, box.Y - edge, box.Width + (2 * edge), box.Height + (2 * edge)) & new Rect(0, 0, full.Cols, full.Rows);
    }

    private static Mat Titled(Mat picture, Mat full, Rect box, string name)
    {
        using Mat drawn = picture.Clone();
        Cv2.FindContours(full, out Point[][] outline, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        Cv2.DrawContours(drawn, outline, -1, Scalar.Black, 3, LineTypes.AntiAlias);
        Cv2.DrawContours(drawn, outline, -1, Scalar.White, 1, LineTypes.AntiAlias);
        using Mat part = new(drawn, box);
        Mat titled = new();
        // Isolated: a part of a picture would take its border from the picture around it.
        Cv2.CopyMakeBorder(part, titled, OverlayText.LineHeight(1) + 6, 4, 4, 4, BorderTypes.Constant | BorderTypes.Isolated, OverlayLegend.Paper);
        OverlayText.Write(titled, name, new Point(6, OverlayText.LineHeight(1) - 2), 1);
        return titled;
    }

    private static Mat Legend(int width)
    {
        int line = OverlayText.LineHeight(1);
        Mat strip = new((2 * line) + 10, width, MatType.CV_8UC3, OverlayLegend.Paper);
        int baseline = line;
        foreach (OverlayStyle style in new[] { Worse, Better })
        {
            Rect box = new Rect(8, baseline - 16, 30, 20) & new Rect(0, 0, strip.Cols, strip.Rows);
            using Mat swatch = strip[box];
            swatch.SetTo(new Scalar(170, 170, 170));
            using Mat change = new(box.Size, MatType.CV_32FC1, Scalar.All(style == Worse ? 1 : -1));
            Hatch(swatch, change);
            OverlayText.Write(strip, style.Word, new Point(46, baseline), 1);
            baseline += line;
        }

        return strip;
    }
}
