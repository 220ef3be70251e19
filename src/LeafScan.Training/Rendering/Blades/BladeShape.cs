using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>
/// The flat outline of one blade on its own sheet of pixels: midrib along x from the base at <see cref="Margin"/>, y across.
/// </summary>
internal sealed class BladeShape
{
    private const int Steps = 700;
    private readonly double[] _up = new double[Steps + 1];
    private readonly double[] _down = new double[Steps + 1];
    private readonly double[] _forward = new double[Steps + 1];

    public BladeShape(Host host, double lengthPx, double pixelsPerMm, Random random)
    {
        LengthPx = lengthPx;
        PixelsPerMm = pixelsPerMm;
        double half = lengthPx * random.Between(host.WidthRatio.Low, host.WidthRatio.High) / 2;
        Fill(_up, host, half, random);
        Fill(_down, host, half, random);
        HalfWidthPx = Math.Max(_up.Max(), _down.Max());
        Margin = (int)Math.Ceiling((2.5 * pixelsPerMm) + 12);
        SheetSize = new Size((int)Math.Ceiling(lengthPx) + (2 * Margin), (2 * (int)Math.Ceiling(HalfWidthPx)) + (2 * Margin));
        CentreY = SheetSize.Height / 2.0;
    }

    /// <summary>Length of the blade in sheet pixels.</summary>
    public double LengthPx { get; }

    /// <summary>Sheet pixels per millimetre.</summary>
    public double PixelsPerMm { get; }

    /// <summary>Widest half in sheet pixels.</summary>
    public double HalfWidthPx { get; }

    /// <summary>Free pixels around the blade.</summary>
    public int Margin { get; }

    /// <summary>Size of the sheet.</summary>
    public Size SheetSize { get; }

    /// <summary>The midrib's y.</summary>
    public double CentreY { get; }

    /// <summary>Half width at a place along the midrib.</summary>
    /// <param name="along">0 at the base, 1 at the tip.</param>
    /// <param name="side">-1 is the upper side of the sheet, 1 the lower.</param>
    public double WidthAt(double along, int side) => (side < 0 ? _up : _down)[(int)(Math.Clamp(along, 0, 1) * Steps)];

    /// <summary>x of a place along the midrib.</summary>
    public double X(double along) => Margin + (along * LengthPx);

    /// <summary>Place on the margin.</summary>
    public Point2d MarginAt(double along, int side)
    {
        int i = (int)(Math.Clamp(along, 0, 1) * Steps);
        return new Point2d(X(along) + _forward[i], CentreY + (side * (side < 0 ? _up : _down)[i]));
    }

    /// <summary>Fills the outline with 255.</summary>
    public Mat Draw()
    {
        Mat mask = Pixels.NewMask(SheetSize);
        List<Point> corners = [];
        for (int i = 0; i <= Steps; i++)
        {
            corners.Add(Fixed(MarginAt((double)i / Steps, -1)));
        }

        for (int i = Steps; i >= 0; i--)
        {
            corners.Add(Fixed(MarginAt((double)i / Steps, 1)));
        }

        Cv2.FillPoly(mask, [corners], Scalar.All(255), LineTypes.Link8, 4);
        return mask;
    }

    private static Point Fixed(Point2d place) => new((int)Math.Round(place.X * 16), (int)Math.Round(place.Y * 16));

    private void Fill(double[] widths, Host host, double half, Random random)
    {
        double peak = host.BasePower / (host.BasePower + host.TipPower);
        double top = Math.Pow(peak, host.BasePower) * Math.Pow(1 - peak, host.TipPower);
        double lean = random.Between(0.94, 1.06);
        double wave1 = random.Between(0, 2 * Math.PI);
        double wave2 = random.Between(0, 2 * Math.PI);
        double[] depth = new double[host.Teeth + 2];
        for (int i = 0; i < depth.Length; i++)
        {
            depth[i] = random.Between(0.55, 1.15);
        }

        for (int i = 0; i <= Steps; i++)
        {
            double t = (double)i / Steps;
            double width = half * lean * Math.Pow(t, host.BasePower) * Math.Pow(1 - t, host.TipPower) / top;
            width *= 1 + (0.018 * Math.Sin((9 * t) + wave1)) + (0.01 * Math.Sin((23 * t) + wave2));
            if (host.Lobes > 0)
            {
                // Rounded lobes with narrower bays; base and tip keep the plain outline.
                double wave = 0.5 - (0.5 * Math.Cos(2 * Math.PI * host.Lobes * Math.Pow(t, 0.9)));
                width *= 1 - (host.LobeDepth * (1 - Math.Pow(wave, 0.45)) * Math.Min(1, 6 * t * (1 - t)));
            }

            if (host.Teeth > 0)
            {
                double at = t * host.Teeth;
                double phase = at - Math.Floor(at);
                double saw = phase < 0.78 ? phase / 0.78 : (1 - phase) / 0.22;
                double tooth = host.ToothMm * PixelsPerMm * depth[(int)at] * Math.Min(1, 8 * t * (1 - t));
                width += tooth * (saw - 0.6);
                _forward[i] = tooth * 0.7 * saw;
            }

            widths[i] = i is 0 or Steps ? 0 : Math.Max(0.15 * PixelsPerMm, width);
        }
    }
}
