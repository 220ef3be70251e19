using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>Copies a padded plane of a network's output into a picture of the true size.</summary>
internal static class FloatMap
{
    /// <summary>Copies the top left part of the plane.</summary>
    public static void Copy(ReadOnlySpan<float> plane, Size padded, Mat to)
    {
        int rows = to.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = to.AsRow<float>(y);
            plane.Slice(y * padded.Width, row.Length).CopyTo(row);
        }
    }
}
