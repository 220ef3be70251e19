using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Frame.Reading;

/// <summary>
/// Whether something like a printed label lies in the photo: a pale four-cornered thing with dark neutral marks on it and hardly
/// any colour. It finds tags too blurred, too far or too dirty to find a code on; alone it proves nothing (a page of a book, a
/// stone), so whoever asks goes by it only where the photo does not look like a leaf.
/// </summary>
internal static class LabelShape
{
    // All limits are by eye, on drawn tags and on photos of leaves.
    private const int LongSidePx = 400;
    private const double LeastArea = 0.015;
    private const double MostArea = 0.8;
    private const double LeastFilled = 0.82;
    private const double MostLengthOverWidth = 3.6;
    private const double LeastInk = 0.03;
    private const double MostInk = 0.45;
    private const double MostColoured = 0.08;
    private const double MostChroma = 0.25;
    private const double InkBelow = 0.72;

    /// <summary>What is taken for paper, one after the other: how far above the middle level (0) towards the brightest (1), and how grey.</summary>
    private static readonly (double Above, double MostChroma)[] Looks = [(0, MostChroma), (0.3, MostChroma), (0, 0.12)];

    /// <summary>Whether there is one.</summary>
    /// <param name="bgr">8-bit B, G, R; not changed.</param>
    public static bool IsIn(Mat bgr)
    {
        double scale = Math.Min(1, LongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat small = new();
        AreaShrink.Into(bgr, small, scale);
        using Mat grey = new();
        Cv2.CvtColor(small, grey, ColorConversionCodes.BGR2GRAY);
        return Looks.Any(look => IsIn(small, grey, look.Above, look.MostChroma));
    }

    // Paper on soil and foliage is what is bright at all; on gravel it is what is brightest, or what is greyest.
    private static bool IsIn(Mat small, Mat grey, double above, double mostChroma)
    {
        using Mat bright = new();
        double middle = Cv2.Threshold(grey, bright, 0, 255, ThresholdTypes.Otsu);
        Cv2.MinMaxLoc(grey, out _, out double top);
        Cv2.Compare(grey, new Scalar(middle + (above * (top - middle))), bright, CmpTypes.GT);
        using Mat neutral = NeutralColour.Mask(small, Cv2.Mean(small, bright), MostChroma);
        using Mat pale = new();
        if (mostChroma < MostChroma)
        {
            using Mat white = new();
            using Mat soft = new();
            Cv2.Compare(grey, new Scalar((middle + top) / 2), white, CmpTypes.GT);
            Cv2.GaussianBlur(small, soft, default, 1.2);
            using Mat greyest = NeutralColour.Mask(soft, Cv2.Mean(small, white), mostChroma);
            Cv2.BitwiseAnd(bright, greyest, pale);
        }
        else
        {
            Cv2.BitwiseAnd(bright, neutral, pale);
        }

        if (above > 0 || mostChroma < MostChroma)
        {
            using Mat square = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(3, 3));
            Cv2.MorphologyEx(pale, pale, MorphTypes.Open, square);
        }

        Cv2.FindContours(pale, out Point[][] outlines, out _, RetrievalModes.External, ContourApproximationModes.ApproxSimple);
        return outlines.Any(outline => IsLabel(outline, grey, neutral));
    }

    private static bool IsLabel(Point[] outline, Mat grey, Mat neutral)
    {
        double area = Cv2.ContourArea(outline);
        double frame = grey.Cols * grey.Rows;
        if (area < LeastArea * frame || area > MostArea * frame)
        {
            return false;
        }

        RotatedRect box = Cv2.MinAreaRect(outline);
        double length = Math.Max(box.Size.Width, box.Size.Height);
        double width = Math.Min(box.Size.Width, box.Size.Height);
        if (area < LeastFilled * length * width || length > MostLengthOverWidth * width)
        {
            return false;
        }

        using Mat inside = new(grey.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.DrawContours(inside, [outline], 0, Scalar.All(255), -1);
        Cv2.Erode(inside, inside, null, iterations: 3);
        double all = Cv2.CountNonZero(inside);
        using Mat part = new();
        Cv2.BitwiseNot(neutral, part);
        Cv2.BitwiseAnd(part, inside, part);
        double coloured = Cv2.CountNonZero(part) / all;
        double paper = Cv2.Mean(grey, inside).Val0;
        Cv2.Compare(grey, new Scalar(paper * InkBelow), part, CmpTypes.LT);
        Cv2.BitwiseAnd(part, inside, part);
        double ink = Cv2.CountNonZero(part) / all;
        return coloured <= MostColoured && ink is >= LeastInk and <= MostInk;
    }
}
