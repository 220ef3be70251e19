using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>
/// A second opinion from the other half of the leaf: what the margin does there, mirrored about the long axis.
/// Most leaves are about alike on both sides of the midrib, so a dent on both sides is the leaf's own shape.
/// </summary>
internal sealed class MirrorOpinion
{
    private readonly Point2d _centre;
    private readonly double _cosine;
    private readonly double _sine;

    /// <summary>Finds the long axis of a mask.</summary>
    public MirrorOpinion(Mat mask)
    {
        Moments m = Cv2.Moments(mask, true);
        _centre = new Point2d(m.M10 / m.M00, m.M01 / m.M00);
        double doubled = Math.Atan2(2 * m.Mu11, m.Mu20 - m.Mu02);
        _cosine = Math.Cos(doubled);
        _sine = Math.Sin(doubled);
        double unlike = Math.Sqrt(((m.Mu20 - m.Mu02) * (m.Mu20 - m.Mu02)) + (4 * m.Mu11 * m.Mu11));
        Elongation = Math.Sqrt((m.Mu20 + m.Mu02 + unlike) / Math.Max(1e-9, m.Mu20 + m.Mu02 - unlike));
    }

    /// <summary>Length over width; near 1 the long axis means nothing.</summary>
    public double Elongation { get; }

    /// <summary>A place on the other side of the long axis.</summary>
    public Point2d Mirror(Point2d p)
    {
        double x = p.X - _centre.X;
        double y = p.Y - _centre.Y;
        return new Point2d(_centre.X + (_cosine * x) + (_sine * y), _centre.Y + (_sine * x) - (_cosine * y));
    }

    /// <summary>
    /// Whether a dent of about the same size lies opposite: then it is the leaf's own shape. A dent on the long axis is
    /// its own twin: the notch of a heart-shaped base.
    /// </summary>
    public bool HasTwin(MarginLine line, Dent dent, List<Dent> dents)
    {
        Point2d opposite = Mirror(Middle(line, dent));
        return dents.Any(d => d.AreaPx > dent.AreaPx / 3
            && d.AreaPx < dent.AreaPx * 3
            && opposite.DistanceTo(Middle(line, d)) < 0.5 * dent.MouthPx);
    }

    private static Point2d Middle(MarginLine line, Dent dent)
    {
        Point2d a = line.At(dent.Start);
        Point2d b = line.At(dent.End);
        return new Point2d((a.X + b.X) / 2, (a.Y + b.Y) / 2);
    }
}
