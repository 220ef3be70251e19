using OpenCvSharp;

namespace LeafScan.Taps.Lining;

/// <summary>A homography: nine numbers, row by row, that map pixels of one photo to another plane.</summary>
internal sealed class PlaneMap(double[] values)
{
    /// <summary>Everything stays where it is.</summary>
    public static PlaneMap Same { get; } = new([1, 0, 0, 0, 1, 0, 0, 0, 1]);

    /// <summary>The nine numbers.</summary>
    public IReadOnlyList<double> Values => values;

    /// <summary>From a 2 x 3 or 3 x 3 matrix of doubles.</summary>
    public static PlaneMap From(Mat matrix)
    {
        matrix.GetArray(out double[] numbers);
        return new PlaneMap(numbers.Length == 6 ? [.. numbers, 0, 0, 1] : numbers);
    }

    /// <summary>Where a place goes.</summary>
    public Point2d Map(double x, double y)
    {
        double depth = (values[6] * x) + (values[7] * y) + values[8];
        return new Point2d(((values[0] * x) + (values[1] * y) + values[2]) / depth, ((values[3] * x) + (values[4] * y) + values[5]) / depth);
    }

    /// <summary>This map after another one.</summary>
    public PlaneMap After(PlaneMap first)
    {
        double[] product = new double[9];
        for (int i = 0; i < 9; i++)
        {
            int row = 3 * (i / 3);
            int column = i % 3;
            product[i] = (values[row] * first.Values[column]) + (values[row + 1] * first.Values[column + 3]) + (values[row + 2] * first.Values[column + 6]);
        }

        return new PlaneMap(product);
    }

    /// <summary>The map back.</summary>
    public PlaneMap Back()
    {
        double[] v = values;
        double[] adjoint =
        [
            (v[4] * v[8]) - (v[5] * v[7]), (v[2] * v[7]) - (v[1] * v[8]), (v[1] * v[5]) - (v[2] * v[4]),
            (v[5] * v[6]) - (v[3] * v[8]), (v[0] * v[8]) - (v[2] * v[6]), (v[2] * v[3]) - (v[0] * v[5]),
            (v[3] * v[7]) - (v[4] * v[6]), (v[1] * v[6]) - (v[0] * v[7]), (v[0] * v[4]) - (v[1] * v[3]),
        ];
        return new PlaneMap([.. adjoint.Select(a => a / adjoint[8])]);
    }

    /// <summary>Pixels of the target per pixel here, at a place.</summary>
    public double ScaleAt(double x, double y)
    {
        Point2d at = Map(x, y);
        Point2d right = Map(x + 1, y) - at;
        Point2d down = Map(x, y + 1) - at;
        return Math.Sqrt(Math.Abs((right.X * down.Y) - (right.Y * down.X)));
    }
}
