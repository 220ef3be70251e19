using OpenCvSharp;

namespace LeafScan.Training.Rendering.Support;

/// <summary>A map of a plane onto a plane that keeps lines straight: nine numbers, row by row.</summary>
internal sealed class PlaneMap(double[] values)
{
    /// <summary>The nine numbers, row by row, the last one 1 where that is possible.</summary>
    public IReadOnlyList<double> Values => values;

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

    /// <summary>This map after another one.</summary>
    public PlaneMap After(PlaneMap first)
    {
        var product = new double[9];
        for (int i = 0; i < 9; i++)
        {
            int row = 3 * (i / 3);
            int column = i % 3;
            product[i] = (values[row] * first.Values[column]) + (values[row + 1] * first.Values[column + 3]) + (values[row + 2] * first.Values[column + 6]);
        }

        return new PlaneMap(product);
    }

    /// <summary>The map back, scaled so that its last number is 1.</summary>
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

    /// <summary>Where a place goes.</summary>
    public Point2d Map(double x, double y)
    {
        double depth = (values[6] * x) + (values[7] * y) + values[8];
        return new Point2d(((values[0] * x) + (values[1] * y) + values[2]) / depth, ((values[3] * x) + (values[4] * y) + values[5]) / depth);
    }

    /// <summary>The numbers as OpenCV wants them; the caller disposes.</summary>
    public Mat ToMat()
    {
        Mat mat = new(3, 3, MatType.CV_64FC1);
        for (int i = 0; i < 9; i++)
        {
            mat.Set(i / 3, i % 3, values[i]);
        }

        return mat;
    }
}
