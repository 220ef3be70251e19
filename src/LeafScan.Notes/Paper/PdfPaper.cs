using LeafScan.Frame.Sheets;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace LeafScan.Notes.Paper;

/// <summary>Writes pages as one PDF with vectors, embedded fonts and text that can be selected.</summary>
public static class PdfPaper
{
    /// <summary>Writes the file.</summary>
    /// <param name="stream">Receives it; stays open.</param>
    /// <param name="pages">At least one page.</param>
    /// <param name="title">Title of the document.</param>
    /// <param name="made">When it was made, for the file's properties.</param>
    public static void Write(Stream stream, IReadOnlyList<PaperPage> pages, string title, DateTimeOffset made)
    {
        using PdfDocument document = new();
        document.Info.Title = title;
        document.Info.Creator = "LeafScan";
        document.Info.CreationDate = made.UtcDateTime;
        document.Language = "en";
        foreach (PaperPage page in pages)
        {
            PdfPage sheet = document.AddPage();
            sheet.Width = XUnit.FromMillimeter(page.WidthMm);
            sheet.Height = XUnit.FromMillimeter(page.HeightMm);
            using XGraphics graphics = XGraphics.FromPdfPage(sheet);
            foreach (PaperShape shape in page.Shapes)
            {
                Draw(graphics, shape);
            }
        }

        // A viewer's own "fit to page" would make the scale wrong.
        document.ViewerPreferences.Elements.SetName("/PrintScaling", "/None");
        document.Save(stream, closeStream: false);
    }

    private static void Draw(XGraphics graphics, PaperShape shape)
    {
        switch (shape)
        {
            case FilledBox box:
                graphics.DrawRectangle(new XSolidBrush(Colour(box.Grey)), Points(box.LeftMm), Points(box.TopMm), Points(box.WidthMm), Points(box.HeightMm));
                break;
            case FilledBoxes boxes:
                XGraphicsPath path = new() { FillMode = XFillMode.Winding };
                foreach (SheetArea area in boxes.Areas)
                {
                    path.AddRectangle(Points(area.LeftMm), Points(area.TopMm), Points(area.WidthMm), Points(area.HeightMm));
                }

                graphics.DrawPath(new XSolidBrush(Colour(boxes.Grey)), path);
                break;
            case ThinLine line:
                graphics.DrawLine(new XPen(Colour(line.Grey), Points(line.WidthMm)), Points(line.X1Mm), Points(line.Y1Mm), Points(line.X2Mm), Points(line.Y2Mm));
                break;
            case PaperText text:
                XStringFormat format = new() { Alignment = text.Centred ? XStringAlignment.Center : XStringAlignment.Near, LineAlignment = XLineAlignment.BaseLine };
                graphics.DrawString(text.Words, PaperFonts.Of(text.SizeMm, text.Bold), new XSolidBrush(Colour(text.Grey)), Points(text.XMm), Points(text.BaselineMm), format);
                break;
        }
    }

    private static double Points(double mm) => XUnit.FromMillimeter(mm).Point;

    private static XColor Colour(byte grey) => XColor.FromArgb(grey, grey, grey);
}
