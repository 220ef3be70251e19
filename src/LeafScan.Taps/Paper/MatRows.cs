using OpenCvSharp;

namespace LeafScan.Taps.Paper;

/// <summary>Rows of a picture as spans: the only way pixels are touched outside OpenCV itself.</summary>
internal static class MatRows
{
    /// <summary>Row <paramref name="y"/> as values of one type, one per pixel.</summary>
    public static unsafe Span<T> AsRow<T>(this Mat mat, int y)
        where T : unmanaged
        => new((void*)mat.Ptr(y), mat.Cols);
}
