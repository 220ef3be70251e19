using OpenCvSharp;

namespace LeafScan.Training.Rendering.Hands;

/// <summary>One finger, seen from above.</summary>
/// <param name="Tip">Its end, in pixels of the photo.</param>
/// <param name="AngleDegrees">Direction from the hand to the tip, clockwise from the right.</param>
/// <param name="HalfWidth">Half of its width at the last joint, in pixels.</param>
/// <param name="Length">Its length to where it leaves the photo or meets the palm, in pixels.</param>
/// <param name="Nail">Whether the nail is seen.</param>
internal readonly record struct Finger(Point2d Tip, double AngleDegrees, double HalfWidth, double Length, bool Nail)
{
    /// <summary>Place in the finger's own measure: along from the tip backwards and across, both in half widths.</summary>
    public (double Along, double Across) Own(double x, double y)
    {
        double angle = AngleDegrees * Math.PI / 180;
        (double cos, double sin) = (Math.Cos(angle), Math.Sin(angle));
        double px = Tip.X - x;
        double py = Tip.Y - y;
        return (((px * cos) + (py * sin)) / HalfWidth, ((py * cos) - (px * sin)) / HalfWidth);
    }

    /// <summary>Half width, in half widths at the last joint, at a distance from the tip: round end, swollen joints.</summary>
    public static double Profile(double along)
    {
        if (along <= 0)
        {
            return 0;
        }

        double end = along < 1.15 ? Math.Pow(1 - Math.Pow(1 - (along / 1.15), 2.3), 0.5) * 0.93 : 0.93;
        return end + Swelling(along, 2.9, 0.07) + Swelling(along, 6.3, 0.12) + (0.02 * Math.Min(9, along));
    }

    private static double Swelling(double along, double joint, double size) => size * Math.Exp(-Math.Pow((along - joint) / 0.9, 2));
}
