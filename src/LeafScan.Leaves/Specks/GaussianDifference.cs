using System.Numerics;
using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>
/// The difference of two Gaussian means (ratio of widths 1.6) in a tile, both at once: OpenCV's Gaussian of 32-bit floats, the
/// same kernel, took six times as long.
/// </summary>
internal sealed class GaussianDifference
{
    private const double FarOverNear = 1.6;

    // Keeps 0 / 0 at bay far outside the leaf.
    private const float Least = 1e-6f;

    // From the middle outwards.
    private readonly float[] _near;
    private readonly float[] _far;

    /// <summary>A difference for a width.</summary>
    /// <param name="sigmaPx">Width of the narrower Gaussian, pixels; up to 2.4, so that the wider looks no farther than <see cref="LeafTile.ReachPx"/>.</param>
    public GaussianDifference(double sigmaPx)
    {
        (_near, _far) = (Half(sigmaPx), Half(sigmaPx * FarOverNear));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(_far.Length - 1, LeafTile.ReachPx, nameof(sigmaPx));
    }

    /// <summary>Fills one tile: normalised convolution (Knutsson and Westin 1993) where the tile is not all leaf.</summary>
    /// <param name="map">32-bit float, 0 outside the leaf.</param>
    /// <param name="weight">1 leaf, 0 elsewhere.</param>
    /// <param name="tile">Where.</param>
    /// <param name="to">Receives the difference in the tile's place.</param>
    public void Fill(PaddedPlane map, PaddedPlane weight, LeafTile tile, PixelRows<float> to)
    {
        Rect place = tile.Place;
        Strip values = new(place.Width);
        Strip weights = new(tile.AllLeaf ? 0 : place.Width);
        for (int y = place.Top; y < place.Bottom; y++)
        {
            Means(map, place.X, y, values);
            Span<float> row = to[y].Slice(place.X, place.Width);
            ReadOnlySpan<float> near = values.Near, far = values.Far;
            if (tile.AllLeaf)
            {
                for (int x = 0; x < row.Length; x++)
                {
                    row[x] = near[x] - far[x];
                }

                continue;
            }

            Means(weight, place.X, y, weights);
            ReadOnlySpan<float> dense = weights.Near, denseFar = weights.Far;
            for (int x = 0; x < row.Length; x++)
            {
                row[x] = (near[x] / (dense[x] + Least)) - (far[x] / (denseFar[x] + Least));
            }
        }
    }

    // Down the columns first, rim and all, then along the row.
    private unsafe void Means(PaddedPlane plane, int x, int y, Strip strip)
    {
        int count = Vector<float>.Count;
        float* middle = plane.At(x - LeafTile.ReachPx, y);
        fixed (float* downNear = strip.DownNear, downFar = strip.DownFar, near = strip.Near, far = strip.Far, kernelNear = _near, kernelFar = _far)
        {
            for (int at = 0; at < strip.DownNear.Length; at += count)
            {
                Both(middle + at, plane.Step, kernelNear, kernelFar, downNear + at, downFar + at);
            }

            for (int at = 0; at < strip.Near.Length; at += count)
            {
                One(downNear + LeafTile.ReachPx + at, kernelNear, _near.Length, near + at);
                One(downFar + LeafTile.ReachPx + at, kernelFar, _far.Length, far + at);
            }
        }
    }

    private unsafe void Both(float* middle, long step, float* kernelNear, float* kernelFar, float* toNear, float* toFar)
    {
        Vector<float> here = Vector.Load(middle);
        Vector<float> near = here * kernelNear[0], far = here * kernelFar[0];
        float* up = middle - step, down = middle + step;
        int i = 1;
        for (; i < _near.Length; i++, up -= step, down += step)
        {
            Vector<float> pair = Vector.Load(up) + Vector.Load(down);
            near = Vector.FusedMultiplyAdd(pair, new Vector<float>(kernelNear[i]), near);
            far = Vector.FusedMultiplyAdd(pair, new Vector<float>(kernelFar[i]), far);
        }

        for (; i < _far.Length; i++, up -= step, down += step)
        {
            far = Vector.FusedMultiplyAdd(Vector.Load(up) + Vector.Load(down), new Vector<float>(kernelFar[i]), far);
        }

        near.Store(toNear);
        far.Store(toFar);
    }

    private static unsafe void One(float* middle, float* kernel, int length, float* to)
    {
        Vector<float> sum = Vector.Load(middle) * kernel[0];
        for (int i = 1; i < length; i++)
        {
            sum = Vector.FusedMultiplyAdd(Vector.Load(middle - i) + Vector.Load(middle + i), new Vector<float>(kernel[i]), sum);
        }

        sum.Store(to);
    }

    // OpenCV takes a Gaussian of floats four widths to either side.
    private static float[] Half(double sigmaPx)
    {
        int side = (int)Math.Round(sigmaPx * 8 + 1) | 1;
        using Mat kernel = Cv2.GetGaussianKernel(side, sigmaPx, MatType.CV_32FC1)!;
        float[] half = new float[(side / 2) + 1];
        for (int i = 0; i < half.Length; i++)
        {
            half[i] = kernel.AsRow<float>((side / 2) + i)[0];
        }

        return half;
    }

    // One row of a tile on its way: whole vectors, with room for a rim.
    private sealed class Strip
    {
        public Strip(int width)
        {
            int whole = (width + Vector<float>.Count - 1) / Vector<float>.Count * Vector<float>.Count;
            DownNear = new float[width == 0 ? 0 : whole + (2 * LeafTile.ReachPx)];
            DownFar = new float[DownNear.Length];
            Near = new float[whole];
            Far = new float[whole];
        }

        public float[] DownNear { get; }

        public float[] DownFar { get; }

        public float[] Near { get; }

        public float[] Far { get; }
    }
}
