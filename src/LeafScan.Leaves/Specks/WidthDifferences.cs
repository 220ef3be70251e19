using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>
/// Differences of two Gaussian means over the leaf alone, worked out in tiles that stay in the processor's own memory: none
/// where there is no leaf, and without weights where there is nothing but leaf. Owns its pictures.
/// </summary>
internal sealed class WidthDifferences : IDisposable
{
    private readonly Layer _full;
    private readonly Layer _half;

    /// <summary>Prepares.</summary>
    /// <param name="map">32-bit float, 0 outside the leaf; not changed.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    public WidthDifferences(Mat map, Mat mask)
    {
        using Mat weight = MaskedBlur.Weights(mask);
        _full = new Layer(map, weight);
        Size half = new(Math.Max(1, map.Cols / 2), Math.Max(1, map.Rows / 2));
        using Mat halfMap = new();
        using Mat halfWeight = new();
        Cv2.Resize(map, halfMap, half, 0, 0, InterpolationFlags.Area);
        Cv2.Resize(weight, halfWeight, half, 0, 0, InterpolationFlags.Area);
        _half = new Layer(halfMap, halfWeight);
    }

    /// <summary>The difference for a width; the caller disposes it. Meaningless more than a pixel outside the leaf.</summary>
    /// <param name="sigmaPx">Width of the narrower Gaussian, pixels of the map, up to 2.4.</param>
    public Mat At(double sigmaPx) => _full.Difference(sigmaPx);

    /// <summary>The same, worked out at half the size: for widths of several pixels, up to 4.8, where it differs by little.</summary>
    public Mat AtHalfSize(double sigmaPx)
    {
        using Mat half = _half.Difference(sigmaPx / 2);
        Mat full = new();
        Cv2.Resize(half, full, _full.Size, 0, 0, InterpolationFlags.Linear);
        return full;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        _full.Dispose();
        _half.Dispose();
    }

    private sealed class Layer(Mat map, Mat weight) : IDisposable
    {
        private readonly PaddedPlane _map = new(map);
        private readonly PaddedPlane _weight = new(weight);
        private readonly IReadOnlyList<LeafTile> _tiles = LeafTile.Of(weight);

        public Size Size { get; } = map.Size();

        public Mat Difference(double sigmaPx)
        {
            Mat difference = new(Size, MatType.CV_32FC1, Scalar.All(0));
            GaussianDifference filter = new(sigmaPx);
            PixelRows<float> to = new(difference);
            Bands.Each(_tiles.Count, i => filter.Fill(_map, _weight, _tiles[i], to));
            return difference;
        }

        public void Dispose()
        {
            _map.Dispose();
            _weight.Dispose();
        }
    }
}
