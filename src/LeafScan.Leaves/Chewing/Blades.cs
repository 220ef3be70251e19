using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>
/// Parts a leaf's mask into blades without their stalks, so that the gap between two leaflets, or between stalk and blade, is
/// never a dent. A morphological opening takes off what is thinner than a stalk; the bodies that are left get their teeth and
/// tips back.
/// </summary>
internal static class Blades
{
    /// <summary>Half the width of the thickest stalk, as a share of the leaf's side.</summary>
    private const double StalkShare = 0.03;

    /// <summary>From this share of the leaf on a body is a blade of its own.</summary>
    private const double LeastBlade = 0.03;

    /// <summary>Thin parts that reach further from the body than this share of the leaf's side are stalk.</summary>
    private const double StalkReach = 0.12;

    /// <summary>The blades, 255 on 0, each the size of <paramref name="mask"/>; the caller disposes them.</summary>
    /// <param name="mask">One leaf without holes: 255 leaf, 0 elsewhere, with a rim of background.</param>
    public static List<Mat> Of(Mat mask)
    {
        double side = Math.Sqrt(Cv2.CountNonZero(mask));
        int radius = (int)Math.Round(StalkShare * side);
        if (radius < 2)
        {
            return [mask.Clone()];
        }

        using Mat deep = new();
        Cv2.DistanceTransform(mask, deep, DistanceTypes.L2, DistanceTransformMasks.Precise);
        using Mat core = new();
        Cv2.Compare(deep, Scalar.All(radius), core, CmpTypes.GT);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(core, labels, stats, centres, PixelConnectivity.Connectivity8);
        List<Mat> bodies = [];
        for (int label = 1; label < count; label++)
        {
            if (stats.AsRow<int>(label)[4] >= LeastBlade * LeastBlade * side * side)
            {
                Mat body = new();
                Cv2.InRange(labels, Scalar.All(label), Scalar.All(label), body);
                Grow(body, mask, radius + 0.5);
                if (Cv2.CountNonZero(body) >= LeastBlade * side * side)
                {
                    bodies.Add(body);
                    continue;
                }

                body.Dispose();
            }
        }

        if (bodies.Count == 0 || HangTogether(bodies, mask))
        {
            bodies.ForEach(b => b.Dispose());
            return [mask.Clone()];
        }

        bodies.ForEach(b => GiveTipsBack(b, mask, (int)(StalkReach * side)));
        return bodies;
    }

    // Two bodies in line along the leaf are one blade eaten through to the midrib from both sides. Leaflets lie beside the line.
    private static bool HangTogether(List<Mat> bodies, Mat mask)
    {
        if (bodies.Count != 2)
        {
            return false;
        }

        double[] areas = bodies.ConvertAll(b => (double)Cv2.CountNonZero(b)).ToArray();
        Mat large = bodies[areas[0] >= areas[1] ? 0 : 1];
        Mat small = bodies[areas[0] >= areas[1] ? 1 : 0];
        MirrorOpinion axis = new(large);
        Moments m = Cv2.Moments(small, true);
        Point2d centre = new(m.M10 / m.M00, m.M01 / m.M00);
        return axis.Elongation > 1.15 && centre.DistanceTo(axis.Mirror(centre)) / 2 < 0.12 * Math.Sqrt(Cv2.CountNonZero(mask));
    }

    // Everything of the mask within a distance of the body.
    private static void Grow(Mat body, Mat mask, double reach)
    {
        using Mat rest = new();
        Cv2.BitwiseNot(body, rest);
        using Mat away = new();
        Cv2.DistanceTransform(rest, away, DistanceTypes.L2, DistanceTransformMasks.Precise);
        Cv2.Compare(away, Scalar.All(reach), body, CmpTypes.LE);
        Cv2.BitwiseAnd(body, mask, body);
    }

    // Teeth and tips are thin as well, but end soon; a stalk goes on.
    private static void GiveTipsBack(Mat body, Mat mask, int reach)
    {
        using Mat thin = new();
        Cv2.Subtract(mask, body, thin);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(thin, labels, stats, centres, PixelConnectivity.Connectivity8);
        using Mat near = new();
        Cv2.Dilate(body, near, null);
        Cv2.BitwiseAnd(near, thin, near);
        bool[] touches = new bool[count];
        int rows = labels.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> label = labels.AsRow<int>(y);
            ReadOnlySpan<byte> beside = near.AsRow<byte>(y);
            for (int x = 0; x < label.Length; x++)
            {
                touches[label[x]] |= beside[x] != 0;
            }
        }

        using Mat one = new();
        for (int label = 1; label < count; label++)
        {
            ReadOnlySpan<int> s = stats.AsRow<int>(label);
            if (touches[label] && Math.Max(s[2], s[3]) < reach)
            {
                Rect box = new(s[0], s[1], s[2], s[3]);
                using Mat labelled = new(labels, box);
                using Mat place = new(body, box);
                Cv2.InRange(labelled, Scalar.All(label), Scalar.All(label), one);
                place.SetTo(Scalar.All(255), one);
            }
        }
    }
}
