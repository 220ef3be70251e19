using LeafScan.Frame.Sheets;
using OpenCvSharp;

namespace LeafScan.Frame;

/// <summary>
/// A scale sheet as it lies in a photo: the map between the paper's millimetres and the photo's pixels, valid for what lies
/// flat on the sheet.
/// </summary>
public sealed record SheetView
{
    private readonly PlaneMap _toPhoto;

    private readonly PlaneMap _toSheet;

    /// <summary>A view from its map.</summary>
    /// <param name="sheet">Which sheet.</param>
    /// <param name="toPhoto">Paper mm (as described) to photo px.</param>
    /// <param name="printed">What the printer made of the sheet.</param>
    public SheetView(ScaleSheet sheet, PlaneMap toPhoto, PrintedScale printed)
    {
        Sheet = sheet;
        Printed = printed;
        _toPhoto = toPhoto;
        _toSheet = toPhoto.Back();
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

    /// <summary>Photo pixels to true mm on the paper.</summary>
    public PlaneMap ToTrueMm => new([.. _toSheet.Values.Select((number, i) => i < 6 ? number * Printed.Factor : number)]);

    /// <summary>Where a place on the paper appears in the photo.</summary>
    public Point2d ToPhoto(double xMm, double yMm) => _toPhoto.Map(xMm, yMm);

    /// <summary>Where on the paper a place in the photo is; mm as described, not as printed.</summary>
    public Point2d ToSheet(double xPx, double yPx) => _toSheet.Map(xPx, yPx);

    /// <summary>Square root of photo pixels per square millimetre of true paper at a place in the photo.</summary>
    public double PixelsPerMmAt(double xPx, double yPx)
    {
        Point2d mm = ToSheet(xPx, yPx);
        return _toPhoto.ScaleAt(mm.X, mm.Y) / Printed.Factor;
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
}
