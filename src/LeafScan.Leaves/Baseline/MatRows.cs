using OpenCvSharp;

namespace LeafScan.Leaves.Baseline;

/// <summary>Rows of a picture as spans: the only way pixels are touched outside OpenCV itself.</summary>
internal static class MatRows
{
    /// <summary>Row <paramref name="y"/> as values of type <typeparamref name="T"/>, one per pixel.</summary>
    public static unsafe Span<T> AsRow<T>(this Mat mat, int y)
        where T : unmanaged
        => new((void*)mat.Ptr(y), mat.Cols);
}
