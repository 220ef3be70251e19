using System.Numerics;
using System.Runtime.Intrinsics;
using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>A value that changes slowly over the picture: a second-order polynomial in x and y, fitted by least squares.</summary>
internal sealed class SmoothSurface
{
    private const int Terms = 6;
    private readonly double[] _c;
    private readonly double _sx;
    private readonly double _sy;

    private SmoothSurface(double[] c, Size size)
    {
        _c = c;
        _sx = 2.0 / Math.Max(1, size.Width - 1);
        _sy = 2.0 / Math.Max(1, size.Height - 1);
    }

    /// <summary>The same value everywhere.</summary>
    public static SmoothSurface Flat(double value, Size size) => new([value, 0, 0, 0, 0, 0], size);

    /// <summary>
    /// Fits the marked pixels. A little ridge holds the bent terms near zero where the marked pixels say nothing about them.
    /// </summary>
    /// <param name="values">32-bit float.</param>
    /// <param name="marked">8-bit; pixels above 0 take part.</param>
    public static SmoothSurface Fit(Mat values, Mat marked)
    {
        Size size = values.Size();
        SmoothSurface frame = Flat(0, size);
        Span<double> normal = stackalloc double[Terms * Terms];
        Span<double> right = stackalloc double[Terms];
        Span<Vector512<double>> sums = stackalloc Vector512<double>[Terms];
        frame.Sum(values, marked, sums);
        for (int i = 0; i < Terms; i++)
        {
            right[i] = sums[i][Terms];
            for (int j = 0; j < Terms; j++)
            {
                normal[(i * Terms) + j] = sums[i][j];
            }
        }

        double ridge = (normal[0] * 1e-3) + 1e-6;
        for (int i = 1; i < Terms; i++)
        {
            normal[(i * Terms) + i] += ridge;
        }

        normal[0] += 1e-6;
        using Mat a = new(Terms, Terms, MatType.CV_64FC1);
        using Mat b = new(Terms, 1, MatType.CV_64FC1);
        for (int i = 0; i < Terms; i++)
        {
            normal.Slice(i * Terms, Terms).CopyTo(a.AsRow<double>(i));
            b.AsRow<double>(i)[0] = right[i];
        }

        using Mat solved = new();
        if (!Cv2.Solve(a, b, solved, DecompTypes.Cholesky))
        {
            return frame;
        }

        double[] c = new double[Terms];
        for (int i = 0; i < Terms; i++)
        {
            c[i] = solved.AsRow<double>(i)[0];
        }

        return new SmoothSurface(c, size);
    }

    // For each term the sums of its products with all six, then with the value. Every sum has its own place in a vector, so that each is
    // taken one pixel after the other as if it were alone.
    private void Sum(Mat values, Mat marked, Span<Vector512<double>> sums)
    {
        Vector512<double> one = default, across = default, down = default, acrossSquare = default, both = default, downSquare = default;
        (int rows, int cols) = (values.Rows, values.Cols);
        for (int y = 0; y < rows; y += 2)
        {
            ReadOnlySpan<float> row = values.AsRow<float>(y);
            ReadOnlySpan<byte> mark = marked.AsRow<byte>(y);
            double v = (y * _sy) - 1;
            for (int x = y / 2 % 2; x < cols; x += 2)
            {
                if (mark[x] == 0)
                {
                    continue;
                }

                double u = (x * _sx) - 1;
                Vector512<double> terms = Vector512.Create(1, u, v, u * u, u * v, v * v, row[x], 0);
                one += terms;
                across += Vector512.Create(u) * terms;
                down += Vector512.Create(v) * terms;
                acrossSquare += Vector512.Create(u * u) * terms;
                both += Vector512.Create(u * v) * terms;
                downSquare += Vector512.Create(v * v) * terms;
            }
        }

        (sums[0], sums[1], sums[2], sums[3], sums[4], sums[5]) = (one, across, down, acrossSquare, both, downSquare);
    }

    /// <summary>Writes <paramref name="values"/> minus this surface, 32-bit float, same size.</summary>
    public Mat Below(Mat values)
    {
        Mat rest = new(values.Size(), MatType.CV_32FC1);
        int rows = values.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> row = values.AsRow<float>(y);
            Span<float> to = rest.AsRow<float>(y);
            double v = (y * _sy) - 1;
            float c0 = (float)(_c[0] + (_c[2] * v) + (_c[5] * v * v));
            float c1 = (float)(_c[1] + (_c[4] * v));
            float c2 = (float)_c[3];
            float step = (float)_sx;
            int x = 0;
            Vector<float> ahead = Vector.CreateSequence(0f, 1f);
            for (; x <= row.Length - Vector<float>.Count; x += Vector<float>.Count)
            {
                Vector<float> many = ((ahead + new Vector<float>(x)) * step) - Vector<float>.One;
                (new Vector<float>(row[x..]) - (new Vector<float>(c0) + (many * (new Vector<float>(c1) + (many * c2))))).CopyTo(to[x..]);
            }

            for (; x < row.Length; x++)
            {
                float u = (x * step) - 1;
                to[x] = row[x] - (c0 + (u * (c1 + (u * c2))));
            }
        }

        return rest;
    }
}
