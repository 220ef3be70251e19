using LeafScan.Frame;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Sheets;

/// <summary>A pinhole camera 450 mm above the middle of a sheet: where each place on the paper appears. Known exactly.</summary>
public sealed class SheetCamera
{
    private const double DistanceMm = 450;

    private readonly PlaneMap _map;

    /// <summary>Aims it.</summary>
    public SheetCamera(SheetSpec spec)
    {
        Photo = new Size(spec.LongSidePx * 3 / 4, spec.LongSidePx);
        double focal = 0.85 * spec.LongSidePx * DistanceMm / spec.Sheet.Paper.HeightMm;
        double[,] r = Rotation(spec.TiltDegrees, spec.AxisDegrees, spec.TurnDegrees);

        // The paper about its middle, turned, moved before the camera, and seen through a pinhole.
        PlaneMap seen = new([focal * r[0, 0], focal * r[0, 1], 0, focal * r[1, 0], focal * r[1, 1], 0, r[2, 0], r[2, 1], DistanceMm]);
        _map = PlaneMap.Shift(Photo.Width / 2.0, Photo.Height / 2.0).After(seen).After(PlaneMap.Shift(-spec.Sheet.Paper.WidthMm / 2, -spec.Sheet.Paper.HeightMm / 2));
    }

    /// <summary>Size of the photo.</summary>
    public Size Photo { get; }

    /// <summary>Where a place on the paper appears, in pixels.</summary>
    public Point2d At(double xMm, double yMm) => _map.Map(xMm, yMm);

    /// <summary>Pixels per mm about a place on the paper, from the area of a small square there.</summary>
    public double PixelsPerMm(double xMm, double yMm)
    {
        Point2d[] p = [At(xMm - 0.5, yMm - 0.5), At(xMm + 0.5, yMm - 0.5), At(xMm + 0.5, yMm + 0.5), At(xMm - 0.5, yMm + 0.5)];
        double twice = Enumerable.Range(0, 4).Sum(i => (p[i].X * p[(i + 1) % 4].Y) - (p[(i + 1) % 4].X * p[i].Y));
        return Math.Sqrt(Math.Abs(twice) / 2);
    }

    /// <summary>The map from pixels of a page drawn at a scale to the photo; the caller disposes it.</summary>
    /// <param name="pagePxPerMm">Scale of the page.</param>
    public Mat FromPage(double pagePxPerMm) => _map.After(PlaneMap.Turn(0, 1 / pagePxPerMm)).After(PlaneMap.Shift(0.5, 0.5)).ToMat();

    // Turn in the plane, then tilt about an axis in it (Rodrigues' formula).
    private static double[,] Rotation(double tilt, double axis, double turn)
    {
        (double ux, double uy) = (Math.Cos(axis * Math.PI / 180), Math.Sin(axis * Math.PI / 180));
        (double c, double s) = (Math.Cos(tilt * Math.PI / 180), Math.Sin(tilt * Math.PI / 180));
        (double ct, double st) = (Math.Cos(turn * Math.PI / 180), Math.Sin(turn * Math.PI / 180));
        double[,] k = { { c + (ux * ux * (1 - c)), ux * uy * (1 - c) }, { ux * uy * (1 - c), c + (uy * uy * (1 - c)) }, { -uy * s, ux * s } };
        double[,] r = new double[3, 2];
        for (int i = 0; i < 3; i++)
        {
            r[i, 0] = (k[i, 0] * ct) + (k[i, 1] * st);
            r[i, 1] = (-k[i, 0] * st) + (k[i, 1] * ct);
        }

        return r;
    }
}
