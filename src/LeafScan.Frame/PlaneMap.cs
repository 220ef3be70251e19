using OpenCvSharp;

namespace LeafScan.Frame;

/// <summary>
/// A map of one plane onto another that keeps lines straight (a homography; R. Hartley, A. Zisserman, Multiple View
/// Geometry, 2nd ed., section 2.3): paper to photo, photo to photo.
/// </summary>
public sealed class PlaneMap
{
    private readonly double[] _values;

    /// <summary>From its numbers.</summary>
    /// <param name="values">Nine numbers, row by row.</param>
    /// <exception cref="ArgumentException">There are not nine.</exception>
    public PlaneMap(double[] values) =>
        _values = values.Length == 9 ? values : throw new ArgumentException($"A map of a plane has nine numbers, not {values.Length}.", nameof(values));

    /// <summary>Everything stays where it is.</summary>
    public static PlaneMap Same { get; } = new([1, 0, 0, 0, 1, 0, 0, 0, 1]);

    /// <summary>The nine numbers, row by row.</summary>
    public IReadOnlyList<double> Values => _values;

    /// <summary>Moves by a step.</summary>
    public static PlaneMap Shift(double x, double y) => new([1, 0, x, 0, 1, y, 0, 0, 1]);

    /// <summary>Scales, then turns clockwise.</summary>
    public static PlaneMap Turn(double degrees, double scale)
    {
        double cos = scale * Math.Cos(degrees * Math.PI / 180);
        double sin = scale * Math.Sin(degrees * Math.PI / 180);
        return new PlaneMap([cos, -sin, 0, sin, cos, 0, 0, 0, 1]);
    }

    /// <summary>Loses scale to the right and downwards, per unit.</summary>
    public static PlaneMap Lean(double x, double y) => new([1, 0, 0, 0, 1, 0, x, y, 1]);

    /// <summary>From a 2 x 3 or 3 x 3 matrix of doubles.</summary>
    public static PlaneMap From(Mat matrix)
    {
        matrix.GetArray(out double[] numbers);
        return new PlaneMap(numbers.Length == 6 ? [.. numbers, 0, 0, 1] : numbers);
    }

    /// <summary>Where a place goes.</summary>
    public Point2d Map(double x, double y)
    {
        double depth = (_values[6] * x) + (_values[7] * y) + _values[8];
        return new Point2d(((_values[0] * x) + (_values[1] * y) + _values[2]) / depth, ((_values[3] * x) + (_values[4] * y) + _values[5]) / depth);
    }

    /// <summary>Units of the target per unit here about a place: the square root of how much a small area grows there.</summary>
    public double ScaleAt(double x, double y)
    {
        // The map's derivative: areas grow by det H / w³.
        double w = (_values[6] * x) + (_values[7] * y) + _values[8];
        return Math.Sqrt(Math.Abs(Determinant / (w * w * w)));
    }

    /// <summary>This map after another one.</summary>
    public PlaneMap After(PlaneMap first)
    {
        double[] product = new double[9];
        for (int i = 0; i < 9; i++)
        {
            int row = 3 * (i / 3);
            int column = i % 3;
            product[i] = (_values[row] * first.Values[column]) + (_values[row + 1] * first.Values[column + 3]) + (_values[row + 2] * first.Values[column + 6]);
        }

        return new PlaneMap(product);
    }

    /// <summary>The map back, scaled so that its last number is 1.</summary>
    public PlaneMap Back()
    {
        double[] v = _values;
        double[] adjoint =
        [
            (v[4] * v[8]) - (v[5] * v[7]), (v[2] * v[7]) - (v[1] * v[8]), (v[1] * v[5]) - (v[2] * v[4]),
            (v[5] * v[6]) - (v[3] * v[8]), (v[0] * v[8]) - (v[2] * v[6]), (v[2] * v[3]) - (v[0] * v[5]),
            (v[3] * v[7]) - (v[4] * v[6]), (v[1] * v[6]) - (v[0] * v[7]), (v[0] * v[4]) - (v[1] * v[3]),
        ];
        return new PlaneMap([.. adjoint.Select(a => a / adjoint[8])]);
    }

    /// <summary>The numbers as OpenCV wants them; the caller disposes it.</summary>
    public Mat ToMat()
    {
        using Mat borrowed = Mat.FromPixelData(3, 3, MatType.CV_64FC1, (double[])_values.Clone());
        return borrowed.Clone();
    }

    private double Determinant =>
        (_values[0] * ((_values[4] * _values[8]) - (_values[5] * _values[7])))
        - (_values[1] * ((_values[3] * _values[8]) - (_values[5] * _values[6])))
        + (_values[2] * ((_values[3] * _values[7]) - (_values[4] * _values[6])));
}
