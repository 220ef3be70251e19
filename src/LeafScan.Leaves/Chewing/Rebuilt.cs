using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>Rebuilds the margin over a bite: a Hermite curve that leaves and meets the margin in the directions it had.</summary>
internal static class Rebuilt
{
    private const int Parts = 16;

    /// <summary>The missing piece as a closed polygon, pixels of the mask.</summary>
    /// <param name="line">The margin as it is.</param>
    /// <param name="bite">The bite.</param>
    /// <param name="teeth">Teeth of the margin, or null when it is smooth.</param>
    /// <param name="leafSidePx">Square root of the leaf's area.</param>
    public static Point[] Piece(MarginLine line, Dent bite, Teeth? teeth, double leafSidePx)
    {
        MouthEnds ends = MouthEnds.Of(line, bite, teeth);
        (Point2d from, Point2d along, Point2d outward, double chord) = (ends.From, ends.Along, ends.Outward, ends.ChordPx);
        double first = ends.First;
        double last = ends.Last;

        // A whole margin bends about like a round leaf's, by its chord over the leaf's side (radians at either end); ragged
        // ends must not throw the curve far out. Directions across teeth are steadier, so more bend is believed.
        double usual = chord / leafSidePx;
        double most = teeth is null ? usual + 0.1 : 3 * usual;
        double least = teeth is null ? -0.2 : 0;
        first = Math.Clamp(first, least, most);
        last = Math.Clamp(last, least, most);

        List<Point> polygon = [];
        for (int i = 0; i <= Parts; i++)
        {
            double t = i / (double)Parts;
            double leave = (t * t * t) - (2 * t * t) + t;
            double meet = (t * t * t) - (t * t);
            double step = (3 * t * t) - (2 * t * t * t);
            double x = chord * ((leave * Math.Cos(first)) + step + (meet * Math.Cos(last)));
            double y = chord * ((leave * Math.Sin(first)) - (meet * Math.Sin(last)));
            polygon.Add(new Point(
                (int)Math.Round(from.X + (x * along.X) + (y * outward.X)),
                (int)Math.Round(from.Y + (x * along.Y) + (y * outward.Y))));
        }

        List<Point> eaten = line.Between(bite.Start, bite.End);
        eaten.Reverse();
        return [.. polygon, .. eaten];
    }
}
