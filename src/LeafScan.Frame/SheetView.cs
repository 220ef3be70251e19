using LeafScan.Frame.Sheets;
using OpenCvSharp;

namespace LeafScan.Frame;

/// <summary>
/// A scale sheet as it lies in a photo: the projective map between the paper's millimetres and the photo's pixels
/// (R. Hartley, A. Zisserman, Multiple View Geometry, 2nd ed., section 2.3), valid for what lies flat on the sheet.
/// </summary>
public sealed record SheetView
{
    private readonly double[] _toPhoto;

    private readonly double[] _toSheet;

    /// <summary>A view from its map.</summary>
    /// <param name="sheet">Which sheet.</param>
    /// <param name="toPhoto">Nine numbers, row by row: paper mm (as described) to photo px.</param>
    /// <param name="printed">What the printer made of the sheet.</param>
    public SheetView(ScaleSheet sheet, double[] toPhoto, PrintedScale printed)
    {
        Sheet = sheet;
        Printed = printed;
        _toPhoto = toPhoto;
        _toSheet = Inverse(toPhoto);
    }

    /// <summary>Which sheet.</summary>
    public ScaleSheet Sheet { get; }

    /// <summary>What the printer made of it.</summary>
    public PrintedScale Printed { get; }

    /// <summary>Numbers of the markers that were seen, 1 to 4 of them.</summary>
    public required IReadOnlyList<int> MarkersSeen { get; init; }

    /// <summary>Root mean square distance in mm on the paper between the corners seen and where the map puts them: print, lens and flatness together.</summary>
    public required double ResidualMm { get; init; }

    /// <summary>Likely error of the scale as a share of it (one standard deviation), from markers seen and residual.</summary>
    public required double ScaleUncertainty { get; init; }

    /// <summary>The map from photo pixels to true mm on the paper, nine numbers row by row.</summary>
    public IReadOnlyList<double> ToSheetNumbers => [.. _toSheet.Select((number, i) => i < 6 ? number * Printed.Factor : number)];

    /// <summary>Where a place on the paper appears in the photo.</summary>
    public Point2d ToPhoto(double xMm, double yMm) => Apply(_toPhoto, xMm, yMm);

    /// <summary>Where on the paper a place in the photo is; mm as described, not as printed.</summary>
    public Point2d ToSheet(double xPx, double yPx) => Apply(_toSheet, xPx, yPx);

    /// <summary>Square root of photo pixels per square millimetre of true paper at a place in the photo.</summary>
    public double PixelsPerMmAt(double xPx, double yPx)
    {
        // The map's derivative: areas grow by its determinant, det H / w³.
        Point2d mm = ToSheet(xPx, yPx);
        double w = (_toPhoto[6] * mm.X) + (_toPhoto[7] * mm.Y) + _toPhoto[8];
        return Math.Sqrt(Math.Abs(Determinant(_toPhoto) / (w * w * w))) / Printed.Factor;
    }

    /// <summary>True area in mm² of a closed outline in the photo that lies on the sheet.</summary>
    /// <param name="outline">Corners in photo pixels.</param>
    public double AreaMm2(IReadOnlyList<Point2d> outline)
    {
        double twice = 0;
        for (int i = 0; i < outline.Count; i++)
        {
            Point2d a = ToSheet(outline[i].X, outline[i].Y);
            Point2d b = ToSheet(outline[(i + 1) % outline.Count].X, outline[(i + 1) % outline.Count].Y);
            twice += (a.X * b.Y) - (b.X * a.Y);
        }

        return Math.Abs(twice) / 2 * Printed.Factor * Printed.Factor;
    }

    private static Point2d Apply(double[] m, double x, double y)
    {
        double w = (m[6] * x) + (m[7] * y) + m[8];
        return new Point2d(((m[0] * x) + (m[1] * y) + m[2]) / w, ((m[3] * x) + (m[4] * y) + m[5]) / w);
    }

    private static double Determinant(double[] m) =>
        (m[0] * ((m[4] * m[8]) - (m[5] * m[7]))) - (m[1] * ((m[3] * m[8]) - (m[5] * m[6]))) + (m[2] * ((m[3] * m[7]) - (m[4] * m[6])));

    private static double[] Inverse(double[] m)
    {
        double d = Determinant(m);
        return
        [
            ((m[4] * m[8]) - (m[5] * m[7])) / d, ((m[2] * m[7]) - (m[1] * m[8])) / d, ((m[1] * m[5]) - (m[2] * m[4])) / d,
            ((m[5] * m[6]) - (m[3] * m[8])) / d, ((m[0] * m[8]) - (m[2] * m[6])) / d, ((m[2] * m[3]) - (m[0] * m[5])) / d,
            ((m[3] * m[7]) - (m[4] * m[6])) / d, ((m[1] * m[6]) - (m[0] * m[7])) / d, ((m[0] * m[4]) - (m[1] * m[3])) / d,
        ];
    }
}
