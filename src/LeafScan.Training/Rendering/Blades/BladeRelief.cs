using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>The slopes of a blade's surface along x and y, from which light and shine follow. Owns its pictures.</summary>
internal sealed class BladeRelief(Mat slopeX, Mat slopeY) : IDisposable
{
    /// <summary>Float: rise per pixel along x.</summary>
    public Mat SlopeX { get; } = slopeX;

    /// <summary>Float: rise per pixel along y.</summary>
    public Mat SlopeY { get; } = slopeY;

    /// <summary>Builds the surface: a fold along the midrib, slow waves, bulges between veins, grooves on them, fine grain.</summary>
    /// <param name="shape">The outline.</param>
    /// <param name="veins">The veins.</param>
    /// <param name="whole">255 inside the outline.</param>
    /// <param name="host">The kind of plant.</param>
    /// <param name="spec">Its fold, waves and pillows.</param>
    /// <param name="random">Source of chance.</param>
    public static BladeRelief Build(BladeShape shape, Venation veins, Mat whole, Host host, LeafSpec spec, Random random)
    {
        double mm = shape.PixelsPerMm;
        Size size = shape.SheetSize;
        double slow = shape.LengthPx / 5;
        using Mat height = SmoothNoise.Make(size, slow, random, 2, 0.35);
        height.ConvertTo(height, MatType.CV_32FC1, spec.Waves * slow * 0.55);
        using Mat bulge = new();
        using (Mat near = new())
        {
            Cv2.Min(veins.FromVein, 1.1 * mm, near);
            Cv2.Sqrt(near, bulge);
        }

        Cv2.GaussianBlur(bulge, bulge, default, 0.22 * mm);
        Cv2.ScaleAdd(bulge, host.Quilting * 0.75 * Math.Sqrt(mm), height, height);
        if (spec.Pillow > 0)
        {
            Rise(height, shape, veins, host, spec.Pillow);
        }

        using (Mat groove = new())
        {
            Cv2.GaussianBlur(veins.Main, groove, default, Math.Max(0.5, 0.16 * mm));
            Cv2.ScaleAdd(groove, -0.22 * mm * (0.5 + host.Quilting), height, height);
        }

        // Leathery leaves are smooth between the veins: without this boxwood shone like orange peel.
        Cv2.ScaleAdd(veins.Fine, -0.05 * mm * (0.08 + host.Quilting), height, height);
        using (Mat grain = SmoothNoise.Make(size, Math.Max(1.5, 0.16 * mm), random, 2, 0.6))
        {
            Cv2.ScaleAdd(grain, 0.011 * mm * Math.Min(1, 0.12 + host.Quilting), height, height);
        }

        using (Mat edge = new())
        {
            Cv2.DistanceTransform(whole, edge, DistanceTypes.L2, DistanceTransformMasks.Mask3);
            Cv2.Min(edge, 2.0 * mm, edge);
            Cv2.GaussianBlur(edge, edge, default, 0.5 * mm);
            Cv2.ScaleAdd(edge, random.Between(-0.12, 0.25), height, height);
        }

        Mat slopeX = new();
        Mat slopeY = new();
        Cv2.Sobel(height, slopeX, MatType.CV_32FC1, 1, 0, 3, 0.125);
        Cv2.Sobel(height, slopeY, MatType.CV_32FC1, 0, 1, 3, 0.125);
        AddFold(slopeY, shape, spec.Fold);
        return new BladeRelief(slopeX, slopeY);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        SlopeX.Dispose();
        SlopeY.Dispose();
    }

    // Between two side veins the blade rises like a cushion: the light and dark panels of real leaves.
    private static void Rise(Mat height, BladeShape shape, Venation veins, Host host, double pillow)
    {
        using Mat between = new();
        using Mat from = new();
        Cv2.Compare(veins.Main, Scalar.All(0.35), between, CmpTypes.LT);
        Cv2.DistanceTransform(between, from, DistanceTypes.L2, DistanceTransformMasks.Mask5);
        double half = 0.42 * shape.LengthPx / (host.VeinPairs + 1);
        Cv2.Min(from, half, from);

        // A parabola with its top half way to the next vein: as steep at the vein as pillow times 0.4.
        using Mat square = new();
        Cv2.Multiply(from, from, square, -0.2 * pillow / half);
        Cv2.ScaleAdd(from, 0.4 * pillow, square, square);
        Cv2.GaussianBlur(square, square, default, Math.Max(0.8, 0.07 * half));
        Cv2.Add(height, square, height);
    }

    private static void AddFold(Mat slopeY, BladeShape shape, double fold)
    {
        double soft = 0.9 * shape.PixelsPerMm;
        int rows = slopeY.Rows;
        for (int y = 0; y < rows; y++)
        {
            float slope = (float)(fold * Math.Tanh((y - shape.CentreY) / soft));
            foreach (ref float value in Pixels.Floats(slopeY, y))
            {
                value += slope;
            }
        }
    }
}
