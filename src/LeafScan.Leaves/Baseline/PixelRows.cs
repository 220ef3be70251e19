using OpenCvSharp;

namespace LeafScan.Leaves.Baseline;

/// <summary>
/// The rows of one picture as spans, with its address asked for once: for places that jump about in a picture, where asking
/// OpenCV anew for every row (<see cref="MatRows"/>) costs more than the pixels. The picture must not be disposed
/// or made anew meanwhile.
/// </summary>
/// <typeparam name="T">One pixel.</typeparam>
internal readonly unsafe struct PixelRows<T>
    where T : unmanaged
{
    // Kept so that nobody clears the picture away while its rows are in use.
    private readonly Mat _mat;
    private readonly byte* _first;
    private readonly long _step;

    /// <summary>Rows of a picture or of a part of one.</summary>
    public PixelRows(Mat mat)
    {
        _mat = mat;
        _first = mat.DataPointer;
        _step = mat.Step();
        Cols = mat.Cols;
        Rows = mat.Rows;
    }

    /// <summary>Pixels in a row.</summary>
    public int Cols { get; }

    /// <summary>Number of rows.</summary>
    public int Rows { get; }

    /// <summary>One row.</summary>
    public Span<T> this[int y]
    {
        get
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)y, (uint)Rows, nameof(y));
            return new(_first + (y * _step), Cols);
        }
    }
}
