using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>Holes: background that leaf shuts in on all sides.</summary>
internal static class HoleFinder
{
    /// <summary>Marks each hole of at least <paramref name="smallestPx"/> pixels with 255 and returns how many there are.</summary>
    public static int Mark(Mat mask, Mat missing, double smallestPx)
    {
        using Mat outside = new();
        Cv2.BitwiseNot(mask, outside);
        Cv2.FloodFill(outside, new Point(0, 0), Scalar.All(0));
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(outside, labels, stats, centres, PixelConnectivity.Connectivity4);
        int holes = 0;
        for (int label = 1; label < count; label++)
        {
            if (stats.At<int>(label, (int)ConnectedComponentsTypes.Area) < smallestPx)
            {
                continue;
            }

            using Mat one = new();
            Cv2.InRange(labels, Scalar.All(label), Scalar.All(label), one);
            missing.SetTo(Scalar.All(255), one);
            holes++;
        }

        return holes;
    }
}
