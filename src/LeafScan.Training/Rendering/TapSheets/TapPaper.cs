using LeafScan.Frame;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>The bare sheet on what lies under it, painted once and then seen from both photos, so that its fibres and flaws move with it.</summary>
internal sealed class TapPaper : IDisposable
{
    private readonly Mat _bare;
    private readonly PlaneMap _fromMm;

    public TapPaper(TapSpec spec)
    {
        // Room on all sides for hand shake and zoom.
        Size size = new((int)(1.3 * spec.WidthPx), (int)(1.3 * spec.HeightPx));
        _fromMm = PlaneMap.Shift(size.Width / 2.0, size.Height / 2.0).After(PlaneMap.Turn(0, spec.PixelsPerMm));
        _bare = BackgroundPainter.Paint(size, spec.Background, spec.PixelsPerMm);
        using Mat paper = BackgroundPainter.Paint(size, spec.Background with { Kind = BackgroundKind.Sheet }, spec.PixelsPerMm);
        Fold(paper, spec);
        using Mat mask = Pixels.NewMask(size);
        double x = spec.SheetWidthMm / 2;
        double y = spec.SheetHeightMm / 2;
        Point2d[] corners = [_fromMm.Map(-x, -y), _fromMm.Map(x, -y), _fromMm.Map(x, y), _fromMm.Map(-x, y)];
        Cv2.FillConvexPoly(mask, corners.Select(c => new Point(c.X, c.Y)), Scalar.All(255));
        if (spec.Background.Kind != BackgroundKind.Sheet)
        {
            using Mat cover = new();
            mask.ConvertTo(cover, MatType.CV_32FC1, 1 / 255.0);
            LeafShadow.Throw(_bare, cover, new Rect(default, size), spec.PixelsPerMm, 1.5, spec.Light);
        }

        paper.CopyTo(_bare, mask);
    }

    /// <summary>The sheet as it lies in a photo, float B, G, R; the caller disposes.</summary>
    public Mat Seen(PlaneMap toPhoto, Size photo)
    {
        using Mat map = toPhoto.After(_fromMm.Back()).ToMat();
        Mat seen = new();
        Cv2.WarpPerspective(_bare, seen, map, photo, InterpolationFlags.Cubic, BorderTypes.Reflect101);
        return seen;
    }

    /// <inheritdoc />
    public void Dispose() => _bare.Dispose();

    // One half of the sheet leans a little away from the light; the crease itself is a thin dark line.
    private static void Fold(Mat paper, TapSpec spec)
    {
        if (spec.Fold <= 0)
        {
            return;
        }

        int crease = paper.Cols / 2;
        double width = Math.Max(1, 0.25 * spec.PixelsPerMm);
        var factor = new float[paper.Cols];
        for (int x = 0; x < factor.Length; x++)
        {
            double off = (x - crease) / width;
            factor[x] = (float)((x < crease ? 1 : 1 - spec.Fold) * (1 - (0.8 * spec.Fold * Math.Exp(-off * off))));
        }

        int rows = paper.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = Pixels.Floats(paper, y);
            for (int x = 0; x < factor.Length; x++)
            {
                row[3 * x] *= factor[x];
                row[(3 * x) + 1] *= factor[x];
                row[(3 * x) + 2] *= factor[x];
            }
        }
    }
}
