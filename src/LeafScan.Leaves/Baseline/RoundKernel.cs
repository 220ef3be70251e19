using System.Numerics;
using System.Runtime.InteropServices;
using OpenCvSharp;

namespace LeafScan.Leaves.Baseline;

/// <summary>
/// Closes 8-bit pictures with a round kernel. The answer is OpenCV's to the pixel; OpenCV visits every pixel of the kernel at
/// every pixel of the picture, which for wide kernels took an eighth of a whole reading. A round kernel is a stack of level
/// strokes of few lengths: the highest value along a stroke follows from that along the next shorter one.
/// </summary>
internal sealed class RoundKernel
{
    private readonly int _radius;

    // Half length of the stroke at each row, by its distance from the middle row; never longer further out.
    private readonly int[] _half;

    /// <summary>A kernel of OpenCV's elliptic shape.</summary>
    /// <param name="sidePx">Width and height, pixels; odd.</param>
    public RoundKernel(int sidePx)
    {
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(sidePx, sidePx));
        _radius = sidePx / 2;
        _half = new int[_radius + 1];
        for (int dy = 0; dy <= _radius; dy++)
        {
            _half[dy] = (kernel.AsRow<byte>(_radius + dy).Count((byte)1) - 1) / 2;
        }
    }

    /// <summary>Grows by the kernel, then shrinks by it; what lies outside the picture counts neither way. The caller disposes it.</summary>
    /// <param name="bytes">8-bit, one channel; not changed.</param>
    public Mat Close(Mat bytes)
    {
        using Mat grown = Highest(bytes);
        Cv2.BitwiseNot(grown, grown);
        Mat closed = Highest(grown);
        Cv2.BitwiseNot(closed, closed);
        return closed;
    }

    /// <summary>The same for a picture of 0 and 255 of which a small part is set: only that part is looked at.</summary>
    /// <param name="bytes">8-bit, one channel, 0 and 255; not changed.</param>
    public Mat CloseMarks(Mat bytes)
    {
        Mat closed = new(bytes.Size(), MatType.CV_8UC1, Scalar.All(0));
        Rect marked = Cv2.BoundingRect(bytes);
        if (marked.Width == 0)
        {
            return closed;
        }

        marked.Inflate(2 * _radius, 2 * _radius);
        marked = marked.Intersect(new Rect(0, 0, bytes.Cols, bytes.Rows));
        using Mat part = new(bytes, marked);
        using Mat to = new(closed, marked);
        using Mat done = Close(part);
        done.CopyTo(to);
        return closed;
    }

    private Mat Highest(Mat from)
    {
        Mat to = new(from.Size(), MatType.CV_8UC1, Scalar.All(0));
        Bands.Run(from.Rows, (first, end) => Highest(from, to, first, end));
        return to;
    }

    // Each row's strokes are raised into all rows of the band that they reach.
    private void Highest(Mat from, Mat to, int first, int end)
    {
        int cols = from.Cols;
        int rim = 2 * _radius;
        byte[] stroke = new byte[cols + (2 * rim)];
        byte[] longer = new byte[stroke.Length];
        (int top, int bottom) = (Math.Max(0, first - _radius), Math.Min(from.Rows, end + _radius));
        for (int y = top; y < bottom; y++)
        {
            stroke.AsSpan(0, rim).Clear();
            stroke.AsSpan(rim + cols).Clear();
            from.AsRow<byte>(y).CopyTo(stroke.AsSpan(rim));
            int half = 0;
            for (int dy = _radius; dy >= 0; dy--)
            {
                while (half < _half[dy])
                {
                    int step = Math.Min(_half[dy] - half, Math.Max(1, half));
                    Lengthen(stroke, longer, half, step, rim - _radius);
                    (stroke, longer) = (longer, stroke);
                    half += step;
                }

                ReadOnlySpan<byte> reach = stroke.AsSpan(rim, cols);
                if (y - dy >= first && y - dy < end)
                {
                    Raise(to.AsRow<byte>(y - dy), reach);
                }

                if (dy > 0 && y + dy >= first && y + dy < end)
                {
                    Raise(to.AsRow<byte>(y + dy), reach);
                }
            }
        }
    }

    // From the highest within half pixels to either side to that within half + step.
    private static void Lengthen(byte[] stroke, byte[] longer, int half, int step, int rim)
    {
        int length = stroke.Length - (2 * rim);
        Span<byte> to = longer.AsSpan(rim, length);
        stroke.AsSpan(rim - step, length).CopyTo(to);
        Raise(to, stroke.AsSpan(rim + step, length));
        if (half == 0)
        {
            Raise(to, stroke.AsSpan(rim, length));
        }

        longer.AsSpan(0, rim).Clear();
        longer.AsSpan(rim + length).Clear();
    }

    private static void Raise(Span<byte> to, ReadOnlySpan<byte> by)
    {
        Span<Vector<byte>> wide = MemoryMarshal.Cast<byte, Vector<byte>>(to);
        ReadOnlySpan<Vector<byte>> other = MemoryMarshal.Cast<byte, Vector<byte>>(by);
        for (int i = 0; i < wide.Length; i++)
        {
            wide[i] = Vector.Max(wide[i], other[i]);
        }

        for (int x = wide.Length * Vector<byte>.Count; x < to.Length; x++)
        {
            to[x] = Math.Max(to[x], by[x]);
        }
    }
}
