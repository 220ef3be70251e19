using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>Pale specks on needles as single marks. Touching ones count once, so their number is a lower bound.</summary>
internal static class TwigSpecks
{
    private const int LeastPx = 4;

    /// <summary>The marks, in pixels of the full-size photo.</summary>
    /// <param name="codes"><see cref="MaskCode"/>, working copy.</param>
    /// <param name="enlarge">Full-size pixels per working pixel, 1 or more.</param>
    public static List<SpeckMark> Of(Mat codes, double enlarge)
    {
        using Mat pale = new();
        Cv2.Compare(codes, new Scalar((int)MaskCode.Speck), pale, CmpTypes.EQ);
        using Mat labels = new();
        using Mat statistics = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(pale, labels, statistics, centroids, PixelConnectivity.Connectivity8);
        List<SpeckMark> specks = [];
        for (int i = 1; i < count; i++)
        {
            int area = statistics.AsRow<int>(i)[(int)ConnectedComponentsTypes.Area];
            if (area >= LeastPx)
            {
                ReadOnlySpan<double> centre = centroids.AsRow<double>(i);
                specks.Add(new SpeckMark(
                    Math.Round(((centre[0] + 0.5) * enlarge) - 0.5, 1), Math.Round(((centre[1] + 0.5) * enlarge) - 0.5, 1), Math.Round(2 * Math.Sqrt(area / Math.PI) * enlarge, 1)));
            }
        }

        return specks;
    }
}
