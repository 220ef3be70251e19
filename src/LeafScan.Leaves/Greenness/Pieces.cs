using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>Pieces of a mask.</summary>
internal static class Pieces
{
    /// <summary>Drops every piece that is smaller than a share of the largest.</summary>
    /// <param name="mask">8-bit, 255 inside; changed.</param>
    /// <param name="leastShare">0..1.</param>
    public static void KeepLarge(Mat mask, double leastShare)
    {
        using Mat labels = new();
        using Mat statistics = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(mask, labels, statistics, centroids, PixelConnectivity.Connectivity8);
        int[] area = [.. Enumerable.Range(0, count).Select(i => i == 0 ? 0 : statistics.AsRow<int>(i)[(int)ConnectedComponentsTypes.Area])];
        double least = leastShare * area.Max();
        int rows = mask.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> label = labels.AsRow<int>(y);
            Span<byte> row = mask.AsRow<byte>(y);
            for (int x = 0; x < row.Length; x++)
            {
                row[x] = area[label[x]] < least || label[x] == 0 ? (byte)0 : (byte)255;
            }
        }
    }
}
