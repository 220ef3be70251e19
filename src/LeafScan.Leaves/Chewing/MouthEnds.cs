using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>How the margin runs on either side of a dent's mouth.</summary>
/// <param name="From">First end of the mouth.</param>
/// <param name="Along">Unit direction from the first end to the last.</param>
/// <param name="Outward">Unit direction out of the leaf, square to the mouth.</param>
/// <param name="ChordPx">Width of the mouth.</param>
/// <param name="First">
/// Angle in radians between mouth and margin at the first end, seen from the leaf outside the dent: 0 where the margin goes
/// straight on over the mouth, above 0 where it bulges over it, below 0 where it falls into the dent.
/// </param>
/// <param name="Last">The same at the last end.</param>
internal readonly record struct MouthEnds(Point2d From, Point2d Along, Point2d Outward, double ChordPx, double First, double Last)
{
    /// <summary>Takes the directions of the margin at both ends of a dent; across several teeth where it has teeth.</summary>
    public static MouthEnds Of(MarginLine line, Dent dent, Teeth? teeth)
    {
        int over = teeth is null ? 2 * line.Step : (int)(3 * teeth.Near(dent).MouthPx);
        (Point2d from, Point2d leaving) = line.Before(dent.Start, over);
        (Point2d to, Point2d meeting) = line.After(dent.End, over);
        double chord = Math.Max(1, from.DistanceTo(to));
        Point2d along = new((to.X - from.X) / chord, (to.Y - from.Y) / chord);
        Point2d outward = line.Outward(along);
        return new MouthEnds(
            from,
            along,
            outward,
            chord,
            Math.Atan2(Dot(leaving, outward), Dot(leaving, along)),
            -Math.Atan2(Dot(meeting, outward), Dot(meeting, along)));
    }

    private static double Dot(Point2d a, Point2d b) => (a.X * b.X) + (a.Y * b.Y);
}
