using System.Text;
using ImageMagick;
using ImageMagick.Drawing;
using LeafScan.Frame.Sheets;

namespace LeafScan.Notes.Paper;

/// <summary>Draws one page as a PNG or JPEG without metadata.</summary>
public static class PngPaper
{
    private const double MmPerInch = 25.4;

    /// <summary>Draws the page.</summary>
    /// <param name="stream">Receives it; stays open.</param>
    /// <param name="page">The page.</param>
    /// <param name="dotsPerInch">Pixels per inch of paper, 150 by default, 50 to 600.</param>
    public static void Write(Stream stream, PaperPage page, double dotsPerInch = 150)
    {
        using MagickImage image = Drawn(page, dotsPerInch);
        image.Settings.SetDefine(MagickFormat.Png, "exclude-chunks", "date,time");
        image.Write(stream, MagickFormat.Png24);
    }

    /// <summary>Draws the page as a JPEG, for what is mostly a photo.</summary>
    /// <param name="stream">Receives it; stays open.</param>
    /// <param name="page">The page.</param>
    /// <param name="dotsPerInch">Pixels per inch of paper, 150 by default, 50 to 600.</param>
    public static void WriteJpeg(Stream stream, PaperPage page, double dotsPerInch = 150)
    {
        using MagickImage image = Drawn(page, dotsPerInch);
        image.Quality = 88;

        // Colour at full size: dark green letters on white fray otherwise.
        image.Settings.SetDefine(MagickFormat.Jpeg, "sampling-factor", "1x1");
        image.Write(stream, MagickFormat.Jpeg);
    }

    private static MagickImage Drawn(PaperPage page, double dotsPerInch)
    {
        double scale = dotsPerInch / MmPerInch;
        MagickImage image = new(MagickColors.White, (uint)Math.Round(page.WidthMm * scale), (uint)Math.Round(page.HeightMm * scale));
        foreach (PaperShape shape in page.Shapes)
        {
            Draw(image, shape, scale);
        }

        image.Strip();
        return image;
    }

    private static void Draw(MagickImage image, PaperShape shape, double scale)
    {
        switch (shape)
        {
            case FilledBox box:
                image.Draw(Fill(box, box.Grey), Box(box.LeftMm, box.TopMm, box.WidthMm, box.HeightMm, scale));
                break;
            case FilledBoxes boxes:
                foreach (SheetArea area in boxes.Areas)
                {
                    image.Draw(Fill(boxes, boxes.Grey), Box(area.LeftMm, area.TopMm, area.WidthMm, area.HeightMm, scale));
                }

                break;
            case ThinLine line:
                image.Draw(
                    new DrawableStrokeColor(Colour(line, line.Grey)),
                    new DrawableStrokeWidth(Math.Max(1, line.WidthMm * scale)),
                    new DrawableLine(line.X1Mm * scale, line.Y1Mm * scale, line.X2Mm * scale, line.Y2Mm * scale));
                break;
            case RoundDot dot:
                image.Draw(Fill(dot, dot.Grey), Circle(dot, dot.RadiusMm, scale));
                if (dot.Hollow)
                {
                    image.Draw(new DrawableFillColor(MagickColors.White), Circle(dot, dot.RadiusMm * PdfPaper.HollowShare, scale));
                }

                break;
            case PaperPicture picture:
                using (MagickImage inner = new(picture.Jpeg.Span))
                {
                    inner.Resize(new MagickGeometry((uint)Math.Round(picture.WidthMm * scale), (uint)Math.Round(picture.HeightMm * scale)) { IgnoreAspectRatio = true });
                    image.Composite(inner, (int)Math.Round(picture.LeftMm * scale), (int)Math.Round(picture.TopMm * scale), CompositeOperator.Over);
                }

                break;
            case PaperText text:
                Write(image, text, scale);
                break;
        }
    }

    // Letters that run from right to left stand in their order on paper already; given whole, they would be turned again.
    private static void Write(MagickImage image, PaperText text, double scale)
    {
        FontTables font = PaperFonts.TablesOf(text.Family, text.Bold)!;
        double x = text.XMm - (text.Centred ? text.Words.EnumerateRunes().Sum(letter => font.Advance(letter.Value)) * text.SizeMm / 2 : 0);
        List<(string Words, double XMm)> pieces = [];
        foreach (Rune letter in text.Words.EnumerateRunes())
        {
            bool alone = letter.Value is >= 0x0590 and < 0x0900 or >= 0xFB1D and < 0xFF00;
            if (!alone && pieces.Count > 0 && !IsAlone(pieces[^1].Words))
            {
                pieces[^1] = (pieces[^1].Words + letter, pieces[^1].XMm);
            }
            else
            {
                pieces.Add((letter.ToString(), x));
            }

            x += font.Advance(letter.Value) * text.SizeMm;
        }

        foreach ((string words, double left) in pieces.Where(piece => piece.Words.Trim().Length > 0))
        {
            image.Draw(
                new DrawableFont(PaperFonts.FileOf(text.Family, text.Bold)),
                new DrawableFontPointSize(text.SizeMm * scale),
                new DrawableFillColor(Colour(text, text.Grey)),
                new DrawableText(left * scale, text.BaselineMm * scale, words));
        }
    }

    private static bool IsAlone(string words) => words[0] is >= (char)0x0590 and < (char)0x0900 or >= (char)0xFB1D and < (char)0xFF00;

    private static DrawableFillColor Fill(PaperShape shape, byte grey) => new(Colour(shape, grey));

    // One pixel less: both corners of a rectangle are painted.
    private static DrawableRectangle Box(double left, double top, double width, double height, double scale) => new(
        left * scale, top * scale, Math.Max(left * scale, ((left + width) * scale) - 1), Math.Max(top * scale, ((top + height) * scale) - 1));

    private static DrawableCircle Circle(RoundDot dot, double radiusMm, double scale) => new(dot.XMm * scale, dot.YMm * scale, (dot.XMm + radiusMm) * scale, dot.YMm * scale);

    private static MagickColor Colour(PaperShape shape, byte grey)
    {
        PaperInk ink = shape.Ink ?? PaperInk.OfGrey(grey);
        return MagickColor.FromRgb(ink.Red, ink.Green, ink.Blue);
    }
}
