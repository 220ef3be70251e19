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
        Span<double> t = stackalloc double[Terms];
        normal.Clear();
        right.Clear();
        for (int y = 0; y < size.Height; y += 2)
        {
            ReadOnlySpan<float> row = values.AsRow<float>(y);
            ReadOnlySpan<byte> mark = marked.AsRow<byte>(y);
            for (int x = y / 2 % 2; x < row.Length; x += 2)
            {
                if (mark[x] == 0)
                {
                    continue;
                }

                frame.Basis(x, y, t);
                for (int i = 0; i < Terms; i++)
                {
                    right[i] += t[i] * row[x];
                    for (int j = i; j < Terms; j++)
                    {
                        normal[(i * Terms) + j] += t[i] * t[j];
                    }
                }
            }
        }

        // The other half of the products is the same.
        for (int i = 1; i < Terms; i++)
        {
            for (int j = 0; j < i; j++)
            {
                normal[(i * Terms) + j] = normal[(j * Terms) + i];
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
            for (int x = 0; x < row.Length; x++)
            {
                float u = (x * step) - 1;
                to[x] = row[x] - (c0 + (u * (c1 + (u * c2))));
            }
        }

        return rest;
    }

    private void Basis(int x, int y, Span<double> t)
    {
        double u = (x * _sx) - 1;
        double v = (y * _sy) - 1;
        t[0] = 1;
        t[1] = u;
        t[2] = v;
        t[3] = u * u;
        t[4] = u * v;
        t[5] = v * v;
    }
}
