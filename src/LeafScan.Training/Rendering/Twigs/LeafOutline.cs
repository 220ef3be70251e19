using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>A leaf of a twig laid into the fine canvas.</summary>
internal sealed class LeafOutline(TwigLeaf leaf, Point2d at, double angle, double pixelsPerMm)
{
    private readonly double _cos = Math.Cos(angle);
    private readonly double _sin = Math.Sin(angle);

    /// <summary>Direction of the leaf, radians, clockwise from the right.</summary>
    public double Angle => angle;

    /// <summary>Canvas place of a place along (0..1) and across (mm) the leaf.</summary>
    public Point2d Place(double along, double acrossMm)
    {
        double x = along * leaf.LengthMm * pixelsPerMm;
        double y = acrossMm * pixelsPerMm;
        return new Point2d(at.X + (x * _cos) - (y * _sin), at.Y + (x * _sin) + (y * _cos));
    }

    /// <summary>Corners of the part between two places along the leaf, from <paramref name="low"/> to <paramref name="high"/> half widths across.</summary>
    public Point2d[] Part(double from, double to, double low = -1, double high = 1)
    {
        int steps = Math.Clamp((int)((to - from) * leaf.LengthMm * pixelsPerMm / 3), 3, 24);
        var corners = new Point2d[2 * (steps + 1)];
        for (int i = 0; i <= steps; i++)
        {
            double t = from + ((to - from) * i / steps);
            double half = leaf.HalfWidthAt(t);
            corners[i] = Place(t, half * low);
            corners[^(i + 1)] = Place(t, half * high);
        }

        return corners;
    }

    /// <summary>Corners of a speck on the leaf: an ellipse along it.</summary>
    public Point2d[] Disc(LeafSpeck speck)
    {
        double radius = 0.5 * speck.DiameterMm;
        double along = radius * Math.Sqrt(speck.Stretch) / leaf.LengthMm;
        double across = radius / Math.Sqrt(speck.Stretch);
        return [.. Enumerable.Range(0, 14).Select(i =>
        {
            // The polygon's corners lie a little outside, so that its area is the ellipse's.
            double turn = 2 * Math.PI * i / 14;
            return Place(speck.Along + (1.0168 * along * Math.Cos(turn)), speck.Across + (1.0168 * across * Math.Sin(turn)));
        })];
    }
}
