using LeafScan.Frame.Sheets;
using LeafScan.Leaves.Reading;
using LeafScan.Notes.Paper;
using LeafScan.Notes.Sheets;
using LeafScan.Notes.Tags;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Sheets;

/// <summary>Draws the page flat at <see cref="PxPerMm"/>, as light: the print, the leaf, the colours.</summary>
internal static class SheetPainter
{
    /// <summary>Pixels a mm of the flat page: tenths of millimetres fall on whole pixels.</summary>
    public const int PxPerMm = 10;

    /// <summary>sRGB level of the paper: CIE L* 95.</summary>
    private const double PaperLevel = 241;

    private const double InkLevel = 38;

    /// <summary>Known colours as sRGB: the 24 of the colour target described by McCamy, Marcus and Davidson (1976), values of the usual sRGB table.</summary>
    public static IReadOnlyList<(byte R, byte G, byte B)> Chips { get; } =
    [
        (115, 82, 68), (194, 150, 130), (98, 122, 157), (87, 108, 67), (133, 128, 177), (103, 189, 170), (214, 126, 44), (80, 91, 166),
        (193, 90, 99), (94, 60, 108), (157, 188, 64), (224, 163, 46), (56, 61, 150), (70, 148, 73), (175, 54, 60), (231, 199, 31),
        (187, 86, 149), (8, 133, 161), (243, 243, 242), (200, 200, 200), (160, 160, 160), (122, 122, 121), (85, 85, 85), (52, 52, 52),
    ];

    /// <summary>Where chip i lies.</summary>
    public static SheetArea ChipArea(ScaleSheet sheet, int i) => new(sheet.Field.LeftMm + 12 + (i % 4 * 18), sheet.Field.TopMm + 15 + (i / 4 * 18), 14, 14);

    /// <summary>The page, 8-bit sRGB.</summary>
    /// <param name="spec">What lies on it.</param>
    /// <param name="leafPx">Receives the leaf's mask codes on the page; empty without a leaf. The caller disposes it.</param>
    public static Mat Paint(SheetSpec spec, out Mat leafPx)
    {
        PaperSize paper = spec.Sheet.Paper;
        Mat page = new((int)Math.Round(paper.HeightMm * PxPerMm), (int)Math.Round(paper.WidthMm * PxPerMm), MatType.CV_8UC3, Scalar.All(PaperLevel));
        foreach (PaperShape shape in spec.Printed ? ScaleSheetPage.Of(spec.Sheet).Shapes : [])
        {
            Print(page, shape);
        }

        if (spec.Chips)
        {
            for (int i = 0; i < Chips.Count; i++)
            {
                Fill(page, ChipArea(spec.Sheet, i), new Scalar(Chips[i].B, Chips[i].G, Chips[i].R));
            }
        }

        if (spec.TagCode is { } code)
        {
            LayTag(page, spec.Sheet, code);
        }

        leafPx = spec.LeafSeed is { } seed ? Lay(page, spec, seed) : new Mat();
        foreach (int corner in spec.CoveredCorners)
        {
            SheetArea a = spec.Sheet.Markers[corner].Area;
            Fill(page, new SheetArea(a.LeftMm - 3, a.TopMm - 3, a.WidthMm + 6, a.HeightMm + 6), new Scalar(58, 92, 70));
        }

        return page;
    }

    private static void Print(Mat page, PaperShape shape)
    {
        switch (shape)
        {
            case FilledBox box:
                Fill(page, new SheetArea(box.LeftMm, box.TopMm, box.WidthMm, box.HeightMm), Scalar.All(Ink(box.Grey)));
                break;
            case FilledBoxes boxes:
                foreach (SheetArea area in boxes.Areas)
                {
                    Fill(page, area, Scalar.All(Ink(boxes.Grey)));
                }

                break;
            case ThinLine line:
                Cv2.Line(page, At(line.X1Mm, line.Y1Mm), At(line.X2Mm, line.Y2Mm), Scalar.All(Ink(line.Grey)), Math.Max(1, (int)Math.Round(line.WidthMm * PxPerMm)));
                break;
            case PaperText text:
                // Stroke letters of about the size of the print: what matters is grey writing where writing is.
                double size = text.SizeMm * PxPerMm / 30;
                Size box2 = Cv2.GetTextSize(text.Words, HersheyFonts.HersheySimplex, size, 2, out _);
                Point from = At(text.XMm, text.BaselineMm) - new Point(text.Centred ? box2.Width / 2 : 0, 0);
                Cv2.PutText(page, text.Words, from, HersheyFonts.HersheySimplex, size, Scalar.All(Ink(text.Grey)), 2, LineTypes.AntiAlias);
                break;
        }
    }

    // A printer's black is no black and its white is the paper.
    private static double Ink(byte grey) => InkLevel + (grey / 255.0 * (PaperLevel - InkLevel));

    private static Point At(double xMm, double yMm) => new((int)Math.Round(xMm * PxPerMm), (int)Math.Round(yMm * PxPerMm));

    private static void Fill(Mat page, SheetArea a, Scalar colour)
    {
        Point from = At(a.LeftMm, a.TopMm);
        Point to = At(a.LeftMm + a.WidthMm, a.TopMm + a.HeightMm);
        using Mat part = page.SubMat(Rect.Intersect(new Rect(from.X, from.Y, to.X - from.X, to.Y - from.Y), new Rect(0, 0, page.Cols, page.Rows)));
        part.SetTo(colour);
    }

    // The first tag of a printed page, cut out and laid down.
    private static void LayTag(Mat page, ScaleSheet sheet, string code)
    {
        TagLayout layout = new(sheet.Paper);
        (double dx, double dy) = (sheet.Field.LeftMm + 3 - TagLayout.EdgeMm, sheet.Field.TopMm + sheet.Field.HeightMm - 3 - TagLayout.TagHeightMm - TagLayout.EdgeMm);
        foreach (PaperShape shape in TagPages.Of([new PlantTag(code)], layout)[0].Shapes)
        {
            switch (shape)
            {
                case FilledBoxes boxes:
                    Print(page, boxes with { Areas = [.. boxes.Areas.Select(a => a with { LeftMm = a.LeftMm + dx, TopMm = a.TopMm + dy })] });
                    break;
                case PaperText { Bold: true } text:
                    Print(page, text with { XMm = text.XMm + dx, BaselineMm = text.BaselineMm + dy });
                    break;
            }
        }
    }

    // A rendered leaf is cut out along its exact mask and laid on the page with a soft shadow.
    private static Mat Lay(Mat page, SheetSpec spec, int seed)
    {
        using RenderedScene scene = SceneRenderer.Render(SceneChooser.Choose(seed, Difficulty.Easy, 1800));
        using Mat photo = Cv2.ImDecode(scene.Jpeg.Span, ImreadModes.Color);
        using Mat there = new();
        Cv2.Compare(scene.Mask, Scalar.All(0), there, CmpTypes.GT);
        Rect box = Cv2.BoundingRect(there);
        double scale = spec.LeafLengthMm * PxPerMm / Math.Max(box.Width, box.Height);
        using Mat leaf = new();
        using Mat codes = new();
        using (Mat part = photo.SubMat(box))
        using (Mat mask = scene.Mask.SubMat(box))
        {
            Cv2.Resize(part, leaf, default, scale, scale, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Cubic);
            Cv2.Resize(mask, codes, leaf.Size(), 0, 0, InterpolationFlags.Nearest);
        }

        SheetArea field = spec.Sheet.Field;
        Point middle = At(field.LeftMm + (field.WidthMm * 0.52), field.TopMm + (field.HeightMm * 0.5));
        Rect place = new(middle.X - (leaf.Cols / 2), middle.Y - (leaf.Rows / 2), leaf.Cols, leaf.Rows);
        using Mat ink = new();
        using Mat gone = new();
        Cv2.Compare(codes, Scalar.All(0), ink, CmpTypes.GT);
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Chewed), Scalar.All((int)MaskCode.Chewed), gone);
        ink.SetTo(Scalar.All(0), gone);
        Mat all = new(page.Size(), MatType.CV_8UC1, Scalar.All(0));
        using (Mat put = all.SubMat(place))
        {
            codes.CopyTo(put);
        }

        using Mat present = new(page.Size(), MatType.CV_8UC1, Scalar.All(0));
        using (Mat put = present.SubMat(place))
        {
            ink.CopyTo(put);
        }

        Shadow(page, present);
        using Mat on = page.SubMat(place);
        leaf.CopyTo(on, ink);
        return all;
    }

    private static void Shadow(Mat page, Mat there)
    {
        using Mat moved = new();
        using Mat shift = Mat.FromPixelData(2, 3, MatType.CV_64FC1, new double[] { 1, 0, 1.2 * PxPerMm, 0, 1, 1.0 * PxPerMm });
        Cv2.WarpAffine(there, moved, shift, there.Size());
        Cv2.GaussianBlur(moved, moved, default, PxPerMm * 1.0);
        using Mat dark = new();
        moved.ConvertTo(dark, MatType.CV_32FC1, -0.3 / 255, 1);
        using Mat dark3 = new();
        Cv2.Merge([dark, dark, dark], dark3);
        using Mat value = new();
        page.ConvertTo(value, MatType.CV_32FC3);
        Cv2.Multiply(value, dark3, value);
        value.ConvertTo(page, MatType.CV_8UC3);
    }
}
