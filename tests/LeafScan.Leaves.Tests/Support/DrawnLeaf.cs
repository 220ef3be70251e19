using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Support;

/// <summary>A leaf drawn with known truth: an ellipse of one colour with noise, on white. Owns its pictures.</summary>
internal sealed class DrawnLeaf : IDisposable
{
    public static readonly Scalar Green = new(60, 130, 70);
    public static readonly Scalar Pale = new(120, 190, 185);
    public static readonly Scalar Brown = new(40, 65, 105);

    private readonly Random _random;

    public DrawnLeaf(int width = 700, int height = 360, Scalar? colour = null, int seed = 1)
    {
        _random = new Random(seed);
        Pixels = new Mat(height, width, MatType.CV_8UC3, new Scalar(236, 238, 240));
        Mask = new Mat(height, width, MatType.CV_8UC1, Scalar.All(0));
        Centre = new Point(width / 2, height / 2);
        Axes = new Size((width / 2) - 20, (height / 2) - 20);
        Cv2.Ellipse(Mask, Centre, Axes, 0, 0, 360, Scalar.All(255), -1);
        Pixels.SetTo(colour ?? Green, Mask);
    }

    public Mat Pixels { get; }

    public Mat Mask { get; }

    public Point Centre { get; }

    public Size Axes { get; }

    public List<Point> SpeckCentres { get; } = [];

    /// <summary>Specks on a loose grid, so that none touch.</summary>
    public DrawnLeaf WithSpecks(int radiusPx, int stepPx)
    {
        for (int y = Centre.Y - Axes.Height + stepPx; y < Centre.Y + Axes.Height - stepPx; y += stepPx)
        {
            for (int x = Centre.X - Axes.Width + stepPx; x < Centre.X + Axes.Width - stepPx; x += stepPx)
            {
                Point at = new(x + _random.Next(-3, 4), y + _random.Next(-3, 4));
                double u = (at.X - Centre.X) / (double)(Axes.Width - 15);
                double v = (at.Y - Centre.Y) / (double)(Axes.Height - 15);
                if ((u * u) + (v * v) < 1)
                {
                    Cv2.Circle(Pixels, at, radiusPx, Pale, -1, LineTypes.AntiAlias);
                    SpeckCentres.Add(at);
                }
            }
        }

        return this;
    }

    public DrawnLeaf WithPatch(Point centre, Size axes, Scalar colour)
    {
        using Mat patch = new(Mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.Ellipse(patch, centre, axes, 0, 0, 360, Scalar.All(255), -1);
        Cv2.BitwiseAnd(patch, Mask, patch);
        Pixels.SetTo(colour, patch);
        return this;
    }

    public DrawnLeaf WithBite(Point centre, int radiusPx)
    {
        Cv2.Circle(Mask, centre, radiusPx, Scalar.All(0), -1);
        Cv2.Circle(Pixels, centre, radiusPx, new Scalar(236, 238, 240), -1);
        return this;
    }

    /// <summary>Lens blur and sensor noise, as any real photo has.</summary>
    public DrawnLeaf Photographed(double sigmaNoise = 2)
    {
        Cv2.GaussianBlur(Pixels, Pixels, default, 0.8);
        using Mat noise = new(Pixels.Size(), MatType.CV_16SC3);
        Cv2.SetTheRNG((ulong)_random.Next());
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(sigmaNoise));
        Cv2.Add(Pixels, noise, Pixels, null, (int)MatType.CV_8U);
        return this;
    }

    public LeafReading Measure(MeasureOptions? options = null)
    {
        options ??= new MeasureOptions();
        FoundLeaf found = new(new Rect(0, 0, Pixels.Cols, Pixels.Rows), Mask.Clone(), []);
        using JudgedLeaf leaf = LeafFinder.ByColour(Pixels, found, options.Tissue);
        using Mat mask = new(Pixels.Size(), MatType.CV_8UC1, Scalar.All(0));
        return LeafReader.Read(leaf, mask, options);
    }

    public void Dispose()
    {
        Pixels.Dispose();
        Mask.Dispose();
    }
}
