using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using OpenCvSharp;

namespace LeafScan.Photos.Pictures;

/// <summary>
/// Shrinks photos by area averaging. The answer is OpenCV's to the last bit, which sums the same products in the same order one channel
/// at a time; here the channels of a pixel and of the one below it are summed at once, in about a third of the time.
/// </summary>
public static class AreaShrink
{
    // Shorter bands cost more in rows that both of them read than they save.
    private const int LeastRows = 32;

    /// <summary>Shrinks to a share of the size, rounded to whole pixels.</summary>
    /// <param name="from">Any picture; 8-bit with three channels is what this is for, others are left to OpenCV. Not changed.</param>
    /// <param name="to">Receives the small copy; another picture than the one that is shrunk.</param>
    /// <param name="scale">Small over full, above 0; of 1 and more OpenCV takes care.</param>
    public static void Into(Mat from, Mat to, double scale)
        => Into(from, to, new Size((int)Math.Round(from.Cols * scale), (int)Math.Round(from.Rows * scale)), 1 / scale, 1 / scale, () => Cv2.Resize(from, to, default, scale, scale, InterpolationFlags.Area));

    /// <summary>Shrinks to a size.</summary>
    /// <param name="from">As above.</param>
    /// <param name="to">Receives the small copy.</param>
    /// <param name="size">Its size in pixels.</param>
    public static void Into(Mat from, Mat to, Size size)
        => Into(from, to, size, 1 / (size.Width / (double)from.Cols), 1 / (size.Height / (double)from.Rows), () => Cv2.Resize(from, to, size, 0, 0, InterpolationFlags.Area));

    private static void Into(Mat from, Mat to, Size size, double across, double down, Action byOpenCv)
    {
        bool shrinks = across >= 1 && down >= 1 && size is { Width: > 0, Height: > 0 } && size != from.Size();
        bool whole = Math.Abs(across - Math.Round(across)) < double.Epsilon && Math.Abs(down - Math.Round(down)) < double.Epsilon;
        if (!shrinks || whole || from.Type() != MatType.CV_8UC3 || from.Cols < 2)
        {
            byOpenCv();
            return;
        }

        to.Create(size, MatType.CV_8UC3);
        AreaCells columns = new(from.Cols, size.Width, across), rows = new(from.Rows, size.Height, down);
        int bands = Math.Clamp(size.Height / LeastRows, 1, Math.Max(1, Cv2.GetNumThreads()));
        if (bands == 1)
        {
            new Band(from, to, columns, rows).Fill(0, size.Height);
        }
        else
        {
            Parallel.For(0, bands, band => new Band(from, to, columns, rows).Fill(size.Height * band / bands, size.Height * (band + 1) / bands));
        }
    }

    // Some rows of the small picture on their way.
    private sealed unsafe class Band
    {
        private readonly byte* _from;
        private readonly byte* _to;
        private readonly long _fromStep;
        private readonly long _toStep;
        private readonly int _lastRow;
        private readonly AreaCells _columns;
        private readonly AreaCells _rows;

        // Four floats a pixel; the fourth is whatever follows in the picture and goes nowhere.
        private readonly float[] _upper;
        private readonly float[] _lower;
        private readonly float[] _sum;

        public Band(Mat from, Mat to, AreaCells columns, AreaCells rows)
        {
            _from = from.DataPointer;
            _to = to.DataPointer;
            (_fromStep, _lastRow, _toStep) = (from.Step(), from.Rows - 1, to.Step());
            (_columns, _rows) = (columns, rows);
            (_upper, _lower, _sum) = (new float[4 * columns.Count], new float[4 * columns.Count], new float[4 * columns.Count]);
        }

        public void Fill(int first, int end)
        {
            int there = -2;
            for (int y = first; y < end; y++)
            {
                for (int at = _rows.First[y]; at < _rows.First[y + 1]; at++)
                {
                    int row = _rows.Source[at];
                    if (row != there && row != there + 1)
                    {
                        Across(row);
                        there = row;
                    }

                    Add(row == there ? _upper : _lower, _rows.Weight[at], at == _rows.First[y]);
                }

                Write(y);
            }
        }

        // A row and the one below it.
        private void Across(int row)
        {
            byte* above = _from + (row * _fromStep);
            byte* below = _from + (Math.Min(row + 1, _lastRow) * _fromStep);
            int last = _columns.Count - 1;
            fixed (int* first = _columns.First, source = _columns.Source)
            fixed (float* weight = _columns.Weight, upper = _upper, lower = _lower)
            {
                for (int x = 0; x < last; x++)
                {
                    int at = first[x], end = first[x + 1];
                    byte* a = above + (3 * source[at]);
                    byte* b = below + (3 * source[at]);
                    Vector256<float> sum = Vector256<float>.Zero;
                    for (; at < end; at++, a += 3, b += 3)
                    {
                        sum += Levels(*(uint*)a, *(uint*)b) * Vector256.Create(weight[at]);
                    }

                    sum.GetLower().Store(upper + (4 * x));
                    sum.GetUpper().Store(lower + (4 * x));
                }

                // Nothing may be read behind a picture's last pixel: there the byte before it is taken instead.
                Vector256<float> rest = Vector256<float>.Zero;
                for (int at = first[last]; at < first[last + 1]; at++)
                {
                    int byteAt = (3 * source[at]) - 1;
                    rest += Levels(*(uint*)(above + byteAt) >> 8, *(uint*)(below + byteAt) >> 8) * Vector256.Create(weight[at]);
                }

                rest.GetLower().Store(upper + (4 * last));
                rest.GetUpper().Store(lower + (4 * last));
            }
        }

        private static Vector256<float> Levels(uint above, uint below)
        {
            Vector128<byte> bytes = Vector128.Create(above, below, 0, 0).AsByte();
            if (Avx2.IsSupported)
            {
                return Vector256.ConvertToSingle(Avx2.ConvertToVector256Int32(bytes));
            }

            Vector128<ushort> both = Vector128.WidenLower(bytes);
            return Vector256.ConvertToSingle(Vector256.Create(Vector128.WidenLower(both), Vector128.WidenUpper(both)).AsInt32());
        }

        private void Add(float[] row, float weight, bool begin)
        {
            Vector128<float> share = Vector128.Create(weight);
            fixed (float* from = row, to = _sum)
            {
                for (int i = 0; i < row.Length; i += 4)
                {
                    Vector128<float> part = share * Vector128.Load(from + i);
                    (begin ? part : Vector128.Load(to + i) + part).Store(to + i);
                }
            }
        }

        private void Write(int y)
        {
            byte* to = _to + (y * _toStep);
            int last = _columns.Count - 1;
            fixed (float* sum = _sum)
            {
                for (int x = 0; x < last; x++)
                {
                    *(uint*)(to + (3 * x)) = Bytes(sum + (4 * x));
                }

                uint end = Bytes(sum + (4 * last));
                (to[3 * last], to[(3 * last) + 1], to[(3 * last) + 2]) = ((byte)end, (byte)(end >> 8), (byte)(end >> 16));
            }
        }

        private static uint Bytes(float* sum)
        {
            // Half goes to the even one, as OpenCV has it.
            Vector128<int> levels = Vector128.ConvertToInt32(Vector128.Min(Vector128.Round(Vector128.Load(sum)), Vector128.Create(255f)));
            return Vector128.Shuffle(levels.AsByte(), Vector128.Create((byte)0, 4, 8, 12, 0, 4, 8, 12, 0, 4, 8, 12, 0, 4, 8, 12)).AsUInt32().ToScalar();
        }
    }
}
