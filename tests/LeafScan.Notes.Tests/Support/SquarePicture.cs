using LeafScan.Frame.Sheets;
using LeafScan.Notes.Paper;
using OpenCvSharp;

namespace LeafScan.Notes.Tests.Support;

/// <summary>Squares of a code as grey pixels on white, as a printer and a scanner without faults would make them.</summary>
internal static class SquarePicture
{
    private const double WhiteMm = 5;

    private const int Fine = 8;

    public static Mat Of(FilledBoxes squares, double pxPerMm)
    {
        double left = squares.Areas.Min(a => a.LeftMm) - WhiteMm;
        double top = squares.Areas.Min(a => a.TopMm) - WhiteMm;
        double side = squares.Areas.Max(a => a.LeftMm + a.WidthMm) - left + WhiteMm;
        int px = (int)Math.Round(side * pxPerMm);
        using Mat fine = new(px * Fine, px * Fine, MatType.CV_8UC1, Scalar.All(255));
        foreach (SheetArea a in squares.Areas)
        {
            int At(double mm) => (int)Math.Round(mm * pxPerMm * Fine);
            (int x, int y) = (At(a.LeftMm - left), At(a.TopMm - top));
            using Mat part = fine.SubMat(new Rect(x, y, At(a.LeftMm + a.WidthMm - left) - x, At(a.TopMm + a.HeightMm - top) - y));
            part.SetTo(Scalar.All(0));
        }

        Mat page = new();
        Cv2.Resize(fine, page, new Size(px, px), 0, 0, InterpolationFlags.Area);
        return page;
    }
}
