using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>Tidies a leaf drawn at full size: crumbs go, and holes stay only where the small copy knew of one.</summary>
internal static class FullSizePieces
{
    /// <summary>A loose piece stays when it has at least this share of the largest one's area.</summary>
    private const double LeastPieceShare = 0.03;

    /// <summary>Cleans the mask in place.</summary>
    /// <param name="drawn">255 leaf, 0 rest, full size.</param>
    /// <param name="place">Where it lies in the photo.</param>
    /// <param name="small">The same leaf on the small copy.</param>
    /// <param name="photo">Size of the photo.</param>
    public static void Clean(Mat drawn, Rect place, Mat small, Size photo)
    {
        Cv2.FindContours(drawn, out Point[][] contours, out HierarchyIndex[] tree, RetrievalModes.CComp, ContourApproximationModes.ApproxNone);
        drawn.SetTo(Scalar.All(0));
        double[] areas = Array.ConvertAll(contours, c => Cv2.ContourArea(c));
        double largest = 0;
        for (int i = 0; i < contours.Length; i++)
        {
            largest = tree[i].Parent < 0 ? Math.Max(largest, areas[i]) : largest;
        }

        bool[] kept = new bool[contours.Length];
        for (int i = 0; i < contours.Length; i++)
        {
            kept[i] = tree[i].Parent < 0 && areas[i] >= LeastPieceShare * largest;
            if (kept[i])
            {
                Cv2.DrawContours(drawn, contours, i, Scalar.All(255), -1);
            }
        }

        double scale = photo.Width / (double)small.Cols;
        for (int i = 0; i < contours.Length; i++)
        {
            if (tree[i].Parent >= 0 && kept[tree[i].Parent] && areas[i] > 4 * scale * scale && KnownHole(contours[i], place, small, photo))
            {
                // The contour of a hole runs on the leaf's own pixels, which stay.
                Cv2.DrawContours(drawn, contours, i, Scalar.All(0), -1);
                Cv2.DrawContours(drawn, contours, i, Scalar.All(255), 1);
            }
        }
    }

    private static bool KnownHole(Point[] contour, Rect place, Mat small, Size photo)
    {
        Moments m = Cv2.Moments(contour);
        double x = ((m.M10 / m.M00) + place.X + 0.5) * small.Cols / photo.Width;
        double y = ((m.M01 / m.M00) + place.Y + 0.5) * small.Rows / photo.Height;
        int left = Math.Clamp((int)x, 0, small.Cols - 1);
        int top = Math.Clamp((int)y, 0, small.Rows - 1);
        return small.AsRow<byte>(top)[left] == 0;
    }
}
