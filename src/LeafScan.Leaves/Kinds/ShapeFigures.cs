using OpenCvSharp;

namespace LeafScan.Leaves.Kinds;

/// <summary>How much of the picture is green, unlike the rim, or pale; how thick that is, and in how many pieces.</summary>
internal static class ShapeFigures
{
    private static readonly double[] Depths = [1.5, 3, 6, 12, 24];

    /// <summary>Adds the figures.</summary>
    public static void Add(FigureList list, KindZones zones)
    {
        using Mat green = new();
        Cv2.InRange(zones.Lab, new Scalar(12, -128, 4), new Scalar(95, -6, 128), green);
        Thing(list, "green", green);

        using Mat unlike = UnlikeRim(zones);
        Thing(list, "unlike", unlike);

        using Mat pale = new();
        Cv2.InRange(zones.Lab, new Scalar(66, -10, -16), new Scalar(101, 10, 16), pale);
        Thing(list, "pale", pale);
        Holes(list, pale);
    }

    private static void Thing(FigureList list, string name, Mat mask)
    {
        double all = mask.Total();
        double area = Cv2.CountNonZero(mask);
        list.Add(name + ".share", area / all);
        using Mat depth = new();
        Cv2.DistanceTransform(mask, depth, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        using Mat deeper = new();
        foreach (double least in Depths)
        {
            Cv2.Compare(depth, Scalar.All(least), deeper, CmpTypes.GT);
            list.Add($"{name}.deeper{least:0}", area > 0 ? Cv2.CountNonZero(deeper) / area : 0);
        }

        Cv2.FindContours(mask, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        Point[]? largest = contours.MaxBy(c => Cv2.ContourArea(c));
        double own = largest is null ? 0 : Cv2.ContourArea(largest);
        RotatedRect box = largest is null ? default : Cv2.MinAreaRect(largest);
        Point[] hull = largest is null ? [] : Cv2.ConvexHull(largest);
        list.Add(name + ".pieces", Math.Log(1 + contours.Length));
        list.Add(name + ".largest", own / all);
        list.Add(name + ".inBox", own / Math.Max(1, box.Size.Width * box.Size.Height));
        list.Add(name + ".inHull", own / Math.Max(1, hull.Length > 2 ? Cv2.ContourArea(hull) : 1));
    }

    // Otsu's threshold (1979) on the distance in Lab from the rim's mean colour.
    private static Mat UnlikeRim(KindZones zones)
    {
        Scalar rim = Cv2.Mean(zones.Lab, zones.Rim);
        using Mat away = new();
        Cv2.Subtract(zones.Lab, new Scalar(rim.Val0, rim.Val1, rim.Val2), away);
        Mat[] planes = Cv2.Split(away);
        using Mat l = planes[0];
        using Mat a = planes[1];
        using Mat b = planes[2];
        Cv2.Magnitude(a, b, a);
        Cv2.Magnitude(a, l, a);
        using Mat bytes = new();
        a.ConvertTo(bytes, MatType.CV_8U, 2);
        Mat mask = new();
        Cv2.Threshold(bytes, mask, 0, 255, ThresholdTypes.Otsu);
        return mask;
    }

    // What lies on a pale sheet: dust and mites are many and tiny, a leaf is one and large.
    private static void Holes(FigureList list, Mat pale)
    {
        using Mat closed = new();
        using Mat element = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(9, 9));
        Cv2.MorphologyEx(pale, closed, MorphTypes.Close, element);
        using Mat small = new();
        Cv2.Subtract(closed, pale, small);
        list.Add("pale.specks", Cv2.CountNonZero(small) / Math.Max(1.0, Cv2.CountNonZero(closed)));
    }
}
