using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>Differences of two Gaussian means (ratio of widths 1.6) over the leaf alone. Owns its pictures.</summary>
internal sealed class WidthDifferences : IDisposable
{
    private const double FarOverNear = 1.6;

    private readonly Mat _map;
    private readonly Mat _weight;
    private readonly Mat _halfMap = new();
    private readonly Mat _halfWeight = new();

    /// <summary>Prepares.</summary>
    /// <param name="map">32-bit float, 0 outside the leaf; belongs to the caller.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    public WidthDifferences(Mat map, Mat mask)
    {
        _map = map;
        _weight = MaskedBlur.Weights(mask);
        Size half = new(Math.Max(1, map.Cols / 2), Math.Max(1, map.Rows / 2));
        Cv2.Resize(map, _halfMap, half, 0, 0, InterpolationFlags.Area);
        Cv2.Resize(_weight, _halfWeight, half, 0, 0, InterpolationFlags.Area);
    }

    /// <summary>The difference for a width; the caller disposes it.</summary>
    /// <param name="sigmaPx">Width of the narrower Gaussian, pixels of the map.</param>
    public Mat At(double sigmaPx) => Difference(_map, _weight, sigmaPx);

    /// <summary>The same, worked out at half the size: for widths of several pixels, where it differs by little.</summary>
    public Mat AtHalfSize(double sigmaPx)
    {
        using Mat half = Difference(_halfMap, _halfWeight, sigmaPx / 2);
        Mat full = new();
        Cv2.Resize(half, full, _map.Size(), 0, 0, InterpolationFlags.Linear);
        return full;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        _weight.Dispose();
        _halfMap.Dispose();
        _halfWeight.Dispose();
    }

    private static Mat Difference(Mat map, Mat weight, double sigmaPx)
    {
        Mat near = Mean(map, weight, sigmaPx);
        using Mat far = Mean(map, weight, sigmaPx * FarOverNear);
        Cv2.Subtract(near, far, near);
        return near;
    }

    // Normalised convolution (Knutsson and Westin 1993); the map is 0 already where the weight is.
    private static Mat Mean(Mat map, Mat weight, double sigmaPx)
    {
        using Mat density = new();
        Cv2.GaussianBlur(weight, density, default, sigmaPx);
        Cv2.Add(density, Scalar.All(1e-6), density);
        Mat mean = new();
        Cv2.GaussianBlur(map, mean, default, sigmaPx);
        Cv2.Divide(mean, density, mean);
        return mean;
    }
}
