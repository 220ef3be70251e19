using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>The smooth outline a plant would have with nothing missing.</summary>
internal static class Envelope
{
    // The outline is so smooth that a quarter of the size shows all of it, at a small part of the time.
    private const int Coarser = 4;

    /// <summary>The mask with notches and holes closed that are narrower than a share of the root of its area.</summary>
    /// <param name="mask">255 inside.</param>
    /// <param name="width">Width of the notches, 0..1.</param>
    private static Mat Closed(Mat mask, double width)
    {
        int side = Math.Max(3, (int)(width * Math.Sqrt(Cv2.CountNonZero(mask))) | 1);
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(side, side));
        using Mat wide = new();
        Cv2.CopyMakeBorder(mask, wide, side, side, side, side, BorderTypes.Constant, Scalar.All(0));
        Cv2.MorphologyEx(wide, wide, MorphTypes.Close, disc);
        using Mat inner = new(wide, new Rect(side, side, mask.Cols, mask.Rows));
        return inner.Clone();
    }

    /// <summary>
    /// The outline of the full plant: the mask's edge smoothed, so that tips that stick out and notches between them even
    /// out, then closed over what has fallen; holes filled.
    /// </summary>
    /// <param name="foliage">255 on foliage.</param>
    /// <param name="smoothing">Reach of the smoothing as a share of the root of the area.</param>
    /// <param name="width">Widest notch that is closed, the same share.</param>
    public static Mat Full(Mat foliage, double smoothing, double width)
    {
        using Mat small = new();
        Cv2.Resize(foliage, small, default, 1.0 / Coarser, 1.0 / Coarser, InterpolationFlags.Area);
        Cv2.Threshold(small, small, 127, 255, ThresholdTypes.Binary);
        double root = Math.Sqrt(Math.Max(1, Cv2.CountNonZero(small)));
        using Mat smooth = new();
        using Mat filled = Closed(small, 0.03);
        Cv2.GaussianBlur(filled, smooth, default, Math.Max(1, smoothing * root), 0, BorderTypes.Constant);
        Cv2.Threshold(smooth, smooth, 127, 255, ThresholdTypes.Binary);
        using Mat closed = Closed(smooth, width);
        Cv2.FindContours(closed, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        using Mat drawn = new(small.Size(), MatType.CV_8UC1, Scalar.All(0));
        double most = contours.Length == 0 ? 0 : contours.Max(c => Cv2.ContourArea(c));
        Point[][] large = [.. contours.Where(c => Cv2.ContourArea(c) > 0.2 * most)];
        Cv2.DrawContours(drawn, large, -1, Scalar.All(255), -1);
        Mat full = new();
        Cv2.Resize(drawn, full, foliage.Size());
        Cv2.Threshold(full, full, 127, 255, ThresholdTypes.Binary);
        return full;
    }
}
