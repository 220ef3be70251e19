using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// How leaf and background differ in colour near each place of the edge: a linear discriminant of the three
/// <see cref="ColourPlanes"/> from the means and the pooled scatter of either side (R. A. Fisher, Annals of Eugenics 7, 1936).
/// Owns its planes.
/// </summary>
internal sealed class EdgeModel : IDisposable
{
    private const double WeakBelow = 5;

    // No side's mean comes nearer to the edge than 0.25 of their distance: nearer lies that side's own scatter.
    private const float MostShift = 0.25f;

    private EdgeModel(Mat weights, Mat separation)
    {
        Weights = weights;
        Separation = separation;
    }

    /// <summary>
    /// 32-bit float, 4 channels: weights of ln(R/G), ln(B/G) and level, then the offset. Their sum is 0 at the edge, where a pixel's light
    /// comes half from either side; 0.5 or more at the leaf's mean colour, -0.5 or less at the background's.
    /// </summary>
    public Mat Weights { get; }

    /// <summary>
    /// 32-bit float: squared distance between the two sides' means in units of their scatter (P. C. Mahalanobis, 1936). Above
    /// about 9 the sides hardly overlap; below 4 they can hardly be told apart pixel by pixel.
    /// </summary>
    public Mat Separation { get; }

    /// <summary>Share of the marked pixels at which the two sides can hardly be told apart, 0..1.</summary>
    /// <param name="line">8-bit; pixels above 0 count.</param>
    public double WeakShare(Mat line)
    {
        using Mat weak = new();
        Cv2.Compare(Separation, new Scalar(WeakBelow), weak, CmpTypes.LT);
        Cv2.BitwiseAnd(weak, line, weak);
        return Cv2.CountNonZero(weak) / (double)Math.Max(1, Cv2.CountNonZero(line));
    }

    /// <summary>Learns both sides around every pixel of <paramref name="band"/>.</summary>
    /// <param name="planes">Small copy.</param>
    /// <param name="mask">255 leaf, 0 rest.</param>
    /// <param name="band">Pixels above 0 get a model.</param>
    public static EdgeModel Learn(ColourPlanes planes, Mat mask, Mat band)
    {
        Size size = planes.Size;
        int radius = Math.Max(5, Math.Max(size.Width, size.Height) / 40);
        using Mat rest = new();
        Cv2.BitwiseNot(mask, rest);
        SideStatistics? leafSide = null, backSide = null;
        Bands.Both(() => leafSide = SideStatistics.Of(planes, mask, radius), () => backSide = SideStatistics.Of(planes, rest, radius));
        using SideStatistics leaf = leafSide!;
        using SideStatistics back = backSide!;
        Mat weights = new(size, MatType.CV_32FC4, Scalar.All(0));
        Mat separation = new(size, MatType.CV_32FC1, Scalar.All(0));
        Bands.Run(size.Height, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                ReadOnlySpan<byte> inBand = band.AsRow<byte>(y);
                Span<Vec4f> to = weights.AsRow<Vec4f>(y);
                Span<float> apart = separation.AsRow<float>(y);
                for (int x = 0; x < to.Length; x++)
                {
                    if (inBand[x] != 0)
                    {
                        to[x] = Discriminant(leaf.At(x, y), back.At(x, y), out apart[x]);
                    }
                }
            }
        });

        return new EdgeModel(weights, separation);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Weights.Dispose();
        Separation.Dispose();
    }

    private static Vec4f Discriminant(in SideStatistics.Moments leaf, in SideStatistics.Moments back, out float span)
    {
        span = 0;

        // Scatter below these is noise or compression and must not make one plane decide alone.
        const float RatioFloor = 0.0016f;
        const float LevelFloor = 0.01f;
        float a = (0.5f * (leaf.Xx + back.Xx)) + RatioFloor;
        float b = (0.5f * (leaf.Yy + back.Yy)) + RatioFloor;
        float c = (0.5f * (leaf.Zz + back.Zz)) + LevelFloor;
        float d = 0.5f * (leaf.Xy + back.Xy);
        float e = 0.5f * (leaf.Xz + back.Xz);
        float f = 0.5f * (leaf.Yz + back.Yz);
        float dx = leaf.X - back.X;
        float dy = leaf.Y - back.Y;
        float dz = leaf.Z - back.Z;
        float c00 = (b * c) - (f * f);
        float c01 = (e * f) - (d * c);
        float c02 = (d * f) - (e * b);
        float det = (a * c00) + (d * c01) + (e * c02);
        if (det < 1e-12f)
        {
            return default;
        }

        float c11 = (a * c) - (e * e);
        float c12 = (d * e) - (a * f);
        float c22 = (a * b) - (d * d);
        float w0 = ((c00 * dx) + (c01 * dy) + (c02 * dz)) / det;
        float w1 = ((c01 * dx) + (c11 * dy) + (c12 * dz)) / det;
        float w2 = ((c02 * dx) + (c12 * dy) + (c22 * dz)) / det;
        span = (w0 * dx) + (w1 * dy) + (w2 * dz);
        if (span < 1e-6f)
        {
            return default;
        }

        w0 /= span;
        w1 /= span;
        w2 /= span;
        float middle = 0.5f * ((w0 * (leaf.X + back.X)) + (w1 * (leaf.Y + back.Y)) + (w2 * (leaf.Z + back.Z)));
        (float x, float y, float z) = HalfOfEither(leaf, back);
        float edge = (w0 * x) + (w1 * y) + (w2 * z);

        // Only towards a brighter ground: on a darker one shadow lies beside the leaf, and what is mixed there is not known.
        float shift = Math.Clamp(edge - middle, -MostShift, 0);
        float steeper = 0.5f / (0.5f + shift);
        return new Vec4f(w0 * steeper, w1 * steeper, w2 * steeper, -(middle + shift) * steeper);
    }

    // Lens and sensor mix light, not its logarithms: half leaf, half white paper looks much more like paper in all three planes,
    // and halving there draws a leaf on paper a pixel too small all round (docs/accuracy.md, Scale sheets).
    private static (float RedToGreen, float BlueToGreen, float Level) HalfOfEither(in SideStatistics.Moments leaf, in SideStatistics.Moments back)
    {
        (float r1, float g1, float b1) = Light(leaf, leaf.Z);

        // Where the ground's level scatters there is shadow, and it is darkest beside the leaf.
        (float r2, float g2, float b2) = Light(back, back.Z - MathF.Sqrt(back.Zz));
        float green = g1 + g2;
        return (MathF.Log((r1 + r2) / green), MathF.Log((b1 + b2) / green), MathF.Log(0.5f * ((0.2f * (r1 + r2)) + (0.7f * green) + (0.1f * (b1 + b2)))));
    }

    private static (float Red, float Green, float Blue) Light(in SideStatistics.Moments side, float level)
    {
        (float red, float blue) = (MathF.Exp(side.X), MathF.Exp(side.Y));
        float green = MathF.Exp(level) / ((0.2f * red) + 0.7f + (0.1f * blue));
        return (red * green, green, blue * green);
    }
}
