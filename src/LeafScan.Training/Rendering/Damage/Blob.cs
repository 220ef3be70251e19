using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>
/// A roundish mark with a soft edge. Its strength is half of the peak exactly on its contour, so the area inside is the
/// area at half height.
/// </summary>
internal sealed class Blob
{
    private readonly double _second;
    private readonly double _third;
    private readonly double _turn2;
    private readonly double _turn3;

    /// <param name="centre">Middle in sheet pixels.</param>
    /// <param name="radius">Radius of the disc of about the same area.</param>
    /// <param name="soft">Half width of the soft edge as a share of the radius, 0..1.</param>
    /// <param name="uneven">How far the contour leaves the circle, 0..0.4.</param>
    /// <param name="random">Source of chance.</param>
    public Blob(Point2d centre, double radius, double soft, double uneven, Random random)
    {
        Centre = centre;
        Radius = radius;
        Soft = soft;
        _second = uneven * random.NextDouble();
        _third = 0.6 * uneven * random.NextDouble();
        _turn2 = random.Between(0, 2 * Math.PI);
        _turn3 = random.Between(0, 2 * Math.PI);
    }

    public Point2d Centre { get; }

    public double Radius { get; }

    public double Soft { get; }

    /// <summary>Rectangle outside of which the strength is 0, cut to the sheet.</summary>
    public Rect Box(Size sheet)
    {
        double reach = (Radius * (1 + Soft) * (1 + _second + _third)) + 1;
        int left = Math.Max(0, (int)(Centre.X - reach));
        int top = Math.Max(0, (int)(Centre.Y - reach));
        int right = Math.Min(sheet.Width, (int)(Centre.X + reach) + 2);
        int bottom = Math.Min(sheet.Height, (int)(Centre.Y + reach) + 2);
        return new Rect(left, top, Math.Max(0, right - left), Math.Max(0, bottom - top));
    }

    /// <summary>Distance from the centre as a share of the contour's distance in that direction: 1 on the contour.</summary>
    public double Reach(double x, double y)
    {
        double dx = x - Centre.X;
        double dy = y - Centre.Y;
        double angle = _second + _third > 0 ? Math.Atan2(dy, dx) : 0;
        double contour = Radius * (1 + (_second * Math.Cos((2 * angle) + _turn2)) + (_third * Math.Cos((3 * angle) + _turn3)));
        return Math.Sqrt((dx * dx) + (dy * dy)) / contour;
    }

    /// <summary>Strength 0..1 at a place: 1 inside, 0.5 on the contour, 0 outside.</summary>
    public double At(double x, double y) => Profile(Reach(x, y), Soft);

    /// <summary>Falls smoothly from 1 to 0 around 1.</summary>
    public static double Profile(double reach, double soft)
    {
        double t = Math.Clamp((1 + soft - reach) / (2 * soft), 0, 1);
        return t * t * (3 - (2 * t));
    }
}
