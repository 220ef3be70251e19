using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>Local mean and scatter of the three planes over the pixels of one side of an edge. Owns its planes.</summary>
internal sealed class SideStatistics : IDisposable
{
    private readonly Mat _weight;
    private readonly Mat _first;
    private readonly Mat _squares;
    private readonly Mat _products;
    private readonly PixelRows<float> _weights;
    private readonly PixelRows<Vec3f> _firsts;
    private readonly PixelRows<Vec3f> _twos;
    private readonly PixelRows<Vec3f> _mixed;

    private SideStatistics(Mat weight, Mat first, Mat squares, Mat products)
    {
        _weight = weight;
        _first = first;
        _squares = squares;
        _products = products;
        (_weights, _firsts, _twos, _mixed) = (new(weight), new(first), new(squares), new(products));
    }

    /// <summary>Means X, Y, Z and covariances.</summary>
    public readonly record struct Moments(float X, float Y, float Z, float Xx, float Yy, float Zz, float Xy, float Xz, float Yz);

    /// <summary>Blurs the marked pixels; those two pixels inside count fully, the mixed rim hardly.</summary>
    public static SideStatistics Of(ColourPlanes planes, Mat side, int radius)
    {
        using Mat inner = new();
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        Cv2.Erode(side, inner, disc);
        Size size = planes.Size;
        Mat weight = new(size, MatType.CV_32FC1);
        Mat first = new(size, MatType.CV_32FC3);
        Mat squares = new(size, MatType.CV_32FC3);
        Mat products = new(size, MatType.CV_32FC3);
        for (int y = 0; y < size.Height; y++)
        {
            ReadOnlySpan<byte> any = side.AsRow<byte>(y);
            ReadOnlySpan<byte> sure = inner.AsRow<byte>(y);
            ReadOnlySpan<float> rg = planes.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> bg = planes.BlueToGreen.AsRow<float>(y);
            ReadOnlySpan<float> level = planes.Level.AsRow<float>(y);
            Span<float> w = weight.AsRow<float>(y);
            Span<Vec3f> one = first.AsRow<Vec3f>(y);
            Span<Vec3f> two = squares.AsRow<Vec3f>(y);
            Span<Vec3f> mix = products.AsRow<Vec3f>(y);
            for (int x = 0; x < w.Length; x++)
            {
                float k = sure[x] != 0 ? 1f : any[x] != 0 ? 0.02f : 0f;
                float a = rg[x];
                float b = bg[x];
                float c = level[x];
                w[x] = k;
                one[x] = new Vec3f(k * a, k * b, k * c);
                two[x] = new Vec3f(k * a * a, k * b * b, k * c * c);
                mix[x] = new Vec3f(k * a * b, k * a * c, k * b * c);
            }
        }

        Size window = new((2 * radius) + 1, (2 * radius) + 1);
        foreach (Mat plane in (Mat[])[weight, first, squares, products])
        {
            Cv2.Blur(plane, plane, window, null, BorderTypes.Replicate);
        }

        return new SideStatistics(weight, first, squares, products);
    }

    /// <summary>The moments around one pixel.</summary>
    public Moments At(int x, int y)
    {
        float k = 1 / (_weights[y][x] + 1e-6f);
        Vec3f one = _firsts[y][x];
        Vec3f two = _twos[y][x];
        Vec3f mix = _mixed[y][x];
        float a = one.Item0 * k;
        float b = one.Item1 * k;
        float c = one.Item2 * k;
        return new Moments(
            a,
            b,
            c,
            Math.Max(0, (two.Item0 * k) - (a * a)),
            Math.Max(0, (two.Item1 * k) - (b * b)),
            Math.Max(0, (two.Item2 * k) - (c * c)),
            (mix.Item0 * k) - (a * b),
            (mix.Item1 * k) - (a * c),
            (mix.Item2 * k) - (b * c));
    }

    /// <inheritdoc />
    public void Dispose()
    {
        _weight.Dispose();
        _first.Dispose();
        _squares.Dispose();
        _products.Dispose();
    }
}
