using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// Draws a leaf's edge at full size: in a narrow band about the enlarged small edge, each pixel goes to the leaf or to the
/// background, whichever local colour it is nearer to. Only the band is touched, so the cost is that of an enlargement.
/// </summary>
internal sealed class EdgeRefiner : IDisposable
{
    // Where leaf and background have nearly one colour, the enlarged small edge is better than noise.
    private const float LeastContrastSquared = 18 * 18;

    private readonly Mat _bgr;
    private readonly Mat _inside;
    private readonly Mat _outside;
    private readonly double _scaleX;
    private readonly double _scaleY;

    public EdgeRefiner(Mat bgr, Mat small, Mat mask, bool onSheet)
    {
        _bgr = bgr;
        _scaleX = bgr.Cols / (double)small.Cols;
        _scaleY = bgr.Rows / (double)small.Rows;
        double sigma = onSheet ? 6 : 4;
        _inside = LocalColour(small, mask, sigma);
        using Mat not = new();
        Cv2.BitwiseNot(mask, not);
        _outside = LocalColour(small, not, sigma);
    }

    /// <summary>The mask of one piece in its full-size box.</summary>
    /// <param name="piece">255 on the piece, small copy.</param>
    /// <param name="box">Where it lies, full size.</param>
    public Mat Refine(Mat piece, Rect box)
    {
        Mat mask = Enlarged(piece, box, InterpolationFlags.Linear);
        Cv2.Threshold(mask, mask, 127, 255, ThresholdTypes.Binary);
        if (_scaleX <= 1.01)
        {
            return mask;
        }

        int reach = (int)Math.Ceiling(_scaleX * 1.5) + 1;
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Rect, new Size((2 * reach) + 1, (2 * reach) + 1));
        using Mat band = new();
        Cv2.MorphologyEx(mask, band, MorphTypes.Gradient, kernel);
        using Mat inside = Enlarged(_inside, box, InterpolationFlags.Linear);
        using Mat outside = Enlarged(_outside, box, InterpolationFlags.Linear);
        using Mat pixels = new(_bgr, box);
        int rows = mask.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> near = band.AsRow<byte>(y);
            ReadOnlySpan<Vec3b> p = pixels.AsRow<Vec3b>(y);
            ReadOnlySpan<Vec3b> leaf = inside.AsRow<Vec3b>(y);
            ReadOnlySpan<Vec3b> other = outside.AsRow<Vec3b>(y);
            Span<byte> to = mask.AsRow<byte>(y);
            for (int x = 0; x < to.Length; x++)
            {
                if (near[x] != 0 && Squared(leaf[x], other[x]) > LeastContrastSquared)
                {
                    to[x] = Squared(p[x], leaf[x]) < Squared(p[x], other[x]) ? (byte)255 : (byte)0;
                }
            }
        }

        Cv2.MedianBlur(mask, mask, 5);
        KeepLargest(mask);
        return mask;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        _inside.Dispose();
        _outside.Dispose();
    }

    // Mean colour of one side, spread a little way over the edge from clear pixels of that side.
    private static Mat LocalColour(Mat small, Mat side, double sigma)
    {
        using Mat clear = new();
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(3, 3));
        Cv2.Erode(side, clear, kernel);
        using Mat weight = MaskedBlur.Weights(clear);
        using Mat colour = new();
        small.ConvertTo(colour, MatType.CV_32FC3);
        using Mat mean = MaskedBlur.Gaussian(colour, weight, sigma);
        Mat bytes = new();
        mean.ConvertTo(bytes, MatType.CV_8UC3);
        return bytes;
    }

    // The part of a small picture that lies under the box, at full size, with pixel centres kept in place.
    private Mat Enlarged(Mat small, Rect box, InterpolationFlags how)
    {
        using Mat map = new(2, 3, MatType.CV_64FC1);
        Span<double> first = map.AsRow<double>(0);
        first[0] = 1 / _scaleX;
        first[1] = 0;
        first[2] = ((box.X + 0.5) / _scaleX) - 0.5;
        Span<double> second = map.AsRow<double>(1);
        second[0] = 0;
        second[1] = 1 / _scaleY;
        second[2] = ((box.Y + 0.5) / _scaleY) - 0.5;
        Mat large = new();
        Cv2.WarpAffine(small, large, map, box.Size, how | InterpolationFlags.WarpInverseMap, BorderTypes.Replicate);
        return large;
    }

    private static void KeepLargest(Mat mask)
    {
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(mask, labels, stats, centres, PixelConnectivity.Connectivity4);
        int best = 0;
        int bestArea = 0;
        for (int label = 1; label < count; label++)
        {
            int area = stats.At<int>(label, (int)ConnectedComponentsTypes.Area);
            if (area > bestArea)
            {
                (best, bestArea) = (label, area);
            }
        }

        if (count > 2)
        {
            Cv2.InRange(labels, Scalar.All(best), Scalar.All(best), mask);
        }
    }

    private static int Squared(Vec3b a, Vec3b b)
    {
        int d0 = a.Item0 - b.Item0;
        int d1 = a.Item1 - b.Item1;
        int d2 = a.Item2 - b.Item2;
        return (d0 * d0) + (d1 * d1) + (d2 * d2);
    }
}
