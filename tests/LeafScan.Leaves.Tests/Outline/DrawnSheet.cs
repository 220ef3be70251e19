using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Outline;

/// <summary>
/// A plain sheet with drawn leaves and known truth: paper colour, uneven light, cast shadows, holes, glare, noise. Colours
/// are B, G, R in sRGB. Owns its pictures.
/// </summary>
internal sealed class DrawnSheet : IDisposable
{
    public static readonly Scalar White = new(238, 240, 240);
    public static readonly Scalar Green = new(60, 130, 70);
    public static readonly Scalar Brown = new(50, 85, 130);
    public static readonly Scalar Yellow = new(70, 200, 215);

    private readonly Scalar _paper;
    private readonly double _unit;
    private readonly Mat _shade;

    public DrawnSheet(int width = 900, int height = 700, Scalar? paper = null)
    {
        _paper = paper ?? White;
        _unit = Math.Max(width, height) / 900.0;
        Pixels = new Mat(height, width, MatType.CV_8UC3, _paper);
        Truth = new Mat(height, width, MatType.CV_8UC1, Scalar.All(0));
        _shade = new Mat(height, width, MatType.CV_32FC1, Scalar.All(1));
    }

    public Mat Pixels { get; }

    public Mat Truth { get; }

    /// <summary>A leaf with a wavy margin; all numbers for a sheet 900 pixels wide.</summary>
    public DrawnSheet Leaf(int x, int y, int length, int width, double angle, Scalar? colour = null)
    {
        Point[] outline = Outline(x, y, length, width, angle);
        using Mat leaf = new(Truth.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.FillPoly(leaf, [outline], Scalar.All(255));
        Pixels.SetTo(colour ?? Green, leaf);
        Truth.SetTo(Scalar.All(255), leaf);

        // A paler midrib, so that the leaf is not one flat colour.
        Scalar c = colour ?? Green;
        Cv2.Line(Pixels, outline[0], outline[outline.Length / 2], new Scalar(c.Val0 + 25, c.Val1 + 30, c.Val2 + 30), Scale(5), LineTypes.AntiAlias);
        return this;
    }

    /// <summary>Darkens the sheet beside every leaf drawn so far, as a lamp from one side does.</summary>
    public DrawnSheet Shadow(int dx, int dy, double strength, double softness)
    {
        using Mat move = new(2, 3, MatType.CV_64FC1, Scalar.All(0));
        move.Set(0, 0, 1.0);
        move.Set(1, 1, 1.0);
        move.Set(0, 2, dx * _unit);
        move.Set(1, 2, dy * _unit);
        using Mat cast = new();
        Cv2.WarpAffine(Truth, cast, move, Truth.Size());
        Cv2.GaussianBlur(cast, cast, default, Math.Max(0.5, softness * _unit));
        using Mat dim = new();
        cast.ConvertTo(dim, MatType.CV_32FC1, -strength / 255, 1);
        using Mat sheet = new();
        Cv2.BitwiseNot(Truth, sheet);
        using Mat product = new();
        Cv2.Multiply(_shade, dim, product);
        product.CopyTo(_shade, sheet);
        return this;
    }

    public DrawnSheet Hole(int x, int y, int radius)
    {
        Cv2.Circle(Pixels, At(x, y), Scale(radius), _paper, -1, LineTypes.AntiAlias);
        Cv2.Circle(Truth, At(x, y), Scale(radius), Scalar.All(0), -1);
        return this;
    }

    public DrawnSheet Spot(int x, int y, int radius, Scalar colour)
    {
        Cv2.Circle(Pixels, At(x, y), Scale(radius), colour, -1, LineTypes.AntiAlias);
        return this;
    }

    /// <summary>Lays the sheet on a wooden table that shows all around it, sheet and frame a little askew.</summary>
    public DrawnSheet Table(int left, int top)
    {
        int l = Scale(left);
        int t = Scale(top);
        Point[] corners = [new(l, t + Scale(15)), new(Pixels.Cols - l, t), new(Pixels.Cols - l + Scale(10), Pixels.Rows - t), new(l - Scale(15), Pixels.Rows - t - Scale(10))];
        using Mat table = new(Truth.Size(), MatType.CV_8UC1, Scalar.All(255));
        Cv2.FillConvexPoly(table, corners, Scalar.All(0));
        Pixels.SetTo(new Scalar(70, 110, 160), table);
        return this;
    }

    /// <summary>Shine: a soft, nearly white patch.</summary>
    public DrawnSheet Glare(int x, int y, int radius)
    {
        using Mat alpha = new(Truth.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.Circle(alpha, At(x, y), Scale(radius), Scalar.All(235), -1);
        Cv2.GaussianBlur(alpha, alpha, default, radius * _unit / 2);
        using Mat three = new();
        Cv2.CvtColor(alpha, three, ColorConversionCodes.GRAY2BGR);
        Cv2.Add(Pixels, three, Pixels);
        return this;
    }

    /// <summary>Uneven light over the whole frame, lens blur and sensor noise.</summary>
    public DrawnSheet Photographed(double fallOff = 0.3, double noise = 2.5)
    {
        // A ramp of two pixels, stretched: full light at the top, less towards the bottom.
        using Mat ramp = new(2, 1, MatType.CV_32FC1, Scalar.All(1));
        ramp.Set(1, 0, (float)(1 - fallOff));
        using Mat light = new();
        Cv2.Resize(ramp, light, Truth.Size(), 0, 0, InterpolationFlags.Linear);
        Cv2.Multiply(light, _shade, light);
        using Mat three = new();
        Cv2.CvtColor(light, three, ColorConversionCodes.GRAY2BGR);
        using Mat lit = new();
        Pixels.ConvertTo(lit, MatType.CV_32FC3);
        Cv2.Multiply(lit, three, lit);
        Cv2.GaussianBlur(lit, lit, default, 0.8);
        using Mat grain = new(Truth.Size(), MatType.CV_32FC3);
        Cv2.SetTheRNG(7);
        Cv2.Randn(grain, Scalar.All(0), Scalar.All(noise));
        Cv2.Add(lit, grain, lit);
        lit.ConvertTo(Pixels, MatType.CV_8UC3);
        return this;
    }

    public void Dispose()
    {
        Pixels.Dispose();
        Truth.Dispose();
        _shade.Dispose();
    }

    private Point[] Outline(int x, int y, int length, int width, double angle)
    {
        const int Corners = 240;
        double turn = angle * Math.PI / 180;
        Point[] outline = new Point[Corners];
        for (int i = 0; i < Corners; i++)
        {
            double t = 2 * Math.PI * i / Corners;
            double wave = 1 + (0.03 * Math.Cos(24 * t));
            double u = length / 2.0 * Math.Cos(t) * wave;
            double v = width / 2.0 * Math.Sin(t) * wave * (1 - (0.25 * Math.Cos(t)));
            outline[i] = new Point(
                (int)Math.Round((x + (u * Math.Cos(turn)) - (v * Math.Sin(turn))) * _unit),
                (int)Math.Round((y + (u * Math.Sin(turn)) + (v * Math.Cos(turn))) * _unit));
        }

        return outline;
    }

    private Point At(int x, int y) => new((int)(x * _unit), (int)(y * _unit));

    private int Scale(int px) => Math.Max(1, (int)Math.Round(px * _unit));
}
