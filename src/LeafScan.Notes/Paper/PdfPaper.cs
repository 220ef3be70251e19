using LeafScan.Frame.Sheets;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace LeafScan.Notes.Paper;

/// <summary>What a PDF says of itself.</summary>
/// <param name="Title">Title of the document.</param>
/// <param name="Made">When it was made.</param>
public sealed record PdfFacts(string Title, DateTimeOffset Made)
{
    /// <summary>Who wrote it; empty by default.</summary>
    public string Author { get; init; } = "";

    /// <summary>What it is about; empty by default.</summary>
    public string Subject { get; init; } = "";

    /// <summary>Language of the text as a BCP 47 tag, "en" by default.</summary>
    public string Language { get; init; } = "en";

    /// <summary>Whether viewers are asked not to fit it to the page; true by default, for sheets that are measured with.</summary>
    public bool TrueScale { get; init; } = true;
}

/// <summary>Writes pages as one PDF with vectors, embedded fonts and text that can be selected.</summary>
public static class PdfPaper
{
    /// <summary>Writes the file.</summary>
    /// <param name="stream">Receives it; stays open.</param>
    /// <param name="pages">At least one page.</param>
    /// <param name="title">Title of the document.</param>
    /// <param name="made">When it was made, for the file's properties.</param>
    public static void Write(Stream stream, IReadOnlyList<PaperPage> pages, string title, DateTimeOffset made) => Write(stream, pages, new PdfFacts(title, made));

    /// <summary>Writes the file.</summary>
    /// <param name="stream">Receives it; stays open.</param>
    /// <param name="pages">At least one page.</param>
    /// <param name="facts">What it says of itself.</param>
    public static void Write(Stream stream, IReadOnlyList<PaperPage> pages, PdfFacts facts)
    {
        using PdfDocument document = new();
        document.Info.Title = facts.Title;
        document.Info.Author = facts.Author;
        document.Info.Subject = facts.Subject;
        document.Info.Creator = "LeafScan";
        document.Info.CreationDate = facts.Made.UtcDateTime;
        document.Language = facts.Language;
        HashSet<(string Family, bool Bold)> whole = [.. pages.SelectMany(page => page.Shapes).OfType<PaperText>().Where(PaperFonts.NeedsWhole).Select(text => (text.Family, text.Bold))];
        foreach (PaperPage page in pages)
        {
            PdfPage sheet = document.AddPage();
            sheet.Width = XUnit.FromMillimeter(page.WidthMm);
            sheet.Height = XUnit.FromMillimeter(page.HeightMm);
            using XGraphics graphics = XGraphics.FromPdfPage(sheet);
            foreach (PaperShape shape in page.Shapes)
            {
                Draw(graphics, shape, whole);
            }
        }

        document.ViewerPreferences.DisplayDocTitle = true;
        if (facts.TrueScale)
        {
            // A viewer's own "fit to page" would make the scale wrong.
            document.ViewerPreferences.Elements.SetName("/PrintScaling", "/None");
        }

        document.Save(stream, closeStream: false);
    }

    /// <summary>Radius of the white inside of a hollow dot, as a share of the dot's.</summary>
    internal const double HollowShare = 0.6;

    private static void Draw(XGraphics graphics, PaperShape shape, HashSet<(string Family, bool Bold)> whole)
    {
        switch (shape)
        {
            case FilledBox box:
                graphics.DrawRectangle(Brush(box, box.Grey), Points(box.LeftMm), Points(box.TopMm), Points(box.WidthMm), Points(box.HeightMm));
                break;
            case FilledBoxes boxes:
                XGraphicsPath path = new() { FillMode = XFillMode.Winding };
                foreach (SheetArea area in boxes.Areas)
                {
                    path.AddRectangle(Points(area.LeftMm), Points(area.TopMm), Points(area.WidthMm), Points(area.HeightMm));
                }

                graphics.DrawPath(Brush(boxes, boxes.Grey), path);
                break;
            case ThinLine line:
                graphics.DrawLine(new XPen(Colour(line, line.Grey), Points(line.WidthMm)), Points(line.X1Mm), Points(line.Y1Mm), Points(line.X2Mm), Points(line.Y2Mm));
                break;
            case RoundDot dot:
                graphics.DrawEllipse(Brush(dot, dot.Grey), Circle(dot, dot.RadiusMm));
                if (dot.Hollow)
                {
                    graphics.DrawEllipse(XBrushes.White, Circle(dot, dot.RadiusMm * HollowShare));
                }

                break;
            case PaperPicture picture:
                using (XImage image = XImage.FromStream(new MemoryStream(picture.Jpeg.ToArray(), 0, picture.Jpeg.Length, writable: false, publiclyVisible: true)))
                {
                    graphics.DrawImage(image, Points(picture.LeftMm), Points(picture.TopMm), Points(picture.WidthMm), Points(picture.HeightMm));
                }

                break;
            case PaperText text:
                XStringFormat format = new() { Alignment = text.Centred ? XStringAlignment.Center : XStringAlignment.Near, LineAlignment = XLineAlignment.BaseLine };
                graphics.DrawString(text.Words, PaperFonts.Of(text.SizeMm, text.Bold, text.Family, whole.Contains((text.Family, text.Bold))), Brush(text, text.Grey), Points(text.XMm), Points(text.BaselineMm), format);
                break;
        }
    }

    private static double Points(double mm) => XUnit.FromMillimeter(mm).Point;

    private static XRect Circle(RoundDot dot, double radiusMm) => new(Points(dot.XMm - radiusMm), Points(dot.YMm - radiusMm), Points(2 * radiusMm), Points(2 * radiusMm));

    private static XSolidBrush Brush(PaperShape shape, byte grey) => new(Colour(shape, grey));

    private static XColor Colour(PaperShape shape, byte grey)
    {
        PaperInk ink = shape.Ink ?? PaperInk.OfGrey(grey);
        return XColor.FromArgb(ink.Red, ink.Green, ink.Blue);
    }
}
