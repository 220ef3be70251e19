using System.Globalization;
using System.Text;
using System.Xml;
using LeafScan.Frame.Sheets;

namespace LeafScan.Notes.Paper;

/// <summary>Writes one page as SVG 1.1 whose unit is the millimetre.</summary>
public static class SvgPaper
{
    /// <summary>Writes the file, UTF-8.</summary>
    /// <param name="stream">Receives it; stays open.</param>
    /// <param name="page">The page.</param>
    public static void Write(Stream stream, PaperPage page)
    {
        using XmlWriter writer = XmlWriter.Create(stream, new XmlWriterSettings { Encoding = new UTF8Encoding(false), Indent = true, NewLineChars = "\n", CloseOutput = false });
        Write(writer, page);
    }

    /// <summary>The same as a piece of a page of the web.</summary>
    internal static string Piece(PaperPage page)
    {
        StringBuilder text = new();
        using (XmlWriter writer = XmlWriter.Create(text, new XmlWriterSettings { OmitXmlDeclaration = true, Indent = true, NewLineChars = "\n" }))
        {
            Write(writer, page);
        }

        return text.ToString();
    }

    private static void Write(XmlWriter writer, PaperPage page)
    {
        writer.WriteStartElement("svg", "http://www.w3.org/2000/svg");
        writer.WriteAttributeString("version", "1.1");
        writer.WriteAttributeString("width", Number(page.WidthMm) + "mm");
        writer.WriteAttributeString("height", Number(page.HeightMm) + "mm");
        writer.WriteAttributeString("viewBox", $"0 0 {Number(page.WidthMm)} {Number(page.HeightMm)}");
        if (page.Description is not null)
        {
            writer.WriteAttributeString("role", "img");
        }

        writer.WriteElementString("title", page.Title);
        if (page.Description is { } words)
        {
            writer.WriteElementString("desc", words);
        }

        foreach (PaperShape shape in page.Shapes)
        {
            Draw(writer, shape);
        }

        writer.WriteEndElement();
    }

    private static void Draw(XmlWriter writer, PaperShape shape)
    {
        switch (shape)
        {
            case FilledBox box:
                Element(writer, "rect", ("x", box.LeftMm), ("y", box.TopMm), ("width", box.WidthMm), ("height", box.HeightMm));
                writer.WriteAttributeString("fill", Colour(box, box.Grey));
                writer.WriteAttributeString("shape-rendering", "crispEdges");
                break;
            case FilledBoxes boxes:
                writer.WriteStartElement("path");
                writer.WriteAttributeString("d", string.Join(' ', boxes.Areas.Select(Outline)));
                writer.WriteAttributeString("fill", Colour(boxes, boxes.Grey));
                break;
            case ThinLine line:
                Element(writer, "line", ("x1", line.X1Mm), ("y1", line.Y1Mm), ("x2", line.X2Mm), ("y2", line.Y2Mm), ("stroke-width", line.WidthMm));
                writer.WriteAttributeString("stroke", Colour(line, line.Grey));
                break;
            case RoundDot dot:
                double ring = dot.Hollow ? dot.RadiusMm * (1 - PdfPaper.HollowShare) : 0;
                Element(writer, "circle", ("cx", dot.XMm), ("cy", dot.YMm), ("r", dot.RadiusMm - (ring / 2)), ("stroke-width", ring));
                writer.WriteAttributeString("fill", dot.Hollow ? "white" : Colour(dot, dot.Grey));
                writer.WriteAttributeString("stroke", Colour(dot, dot.Grey));
                break;
            case PaperPicture picture:
                Element(writer, "image", ("x", picture.LeftMm), ("y", picture.TopMm), ("width", picture.WidthMm), ("height", picture.HeightMm));
                writer.WriteAttributeString("href", "data:image/jpeg;base64," + Convert.ToBase64String(picture.Jpeg.Span));
                break;
            case PaperText text:
                Element(writer, "text", ("x", text.XMm), ("y", text.BaselineMm), ("font-size", text.SizeMm));
                writer.WriteAttributeString("font-family", $"{text.Family}, sans-serif");
                writer.WriteAttributeString("font-weight", text.Bold ? "bold" : "normal");
                writer.WriteAttributeString("text-anchor", text.Centred ? "middle" : "start");
                writer.WriteAttributeString("fill", Colour(text, text.Grey));
                writer.WriteString(text.Words);
                break;
        }

        writer.WriteEndElement();
    }

    private static void Element(XmlWriter writer, string name, params (string Name, double Value)[] numbers)
    {
        writer.WriteStartElement(name);
        foreach ((string attribute, double value) in numbers)
        {
            writer.WriteAttributeString(attribute, Number(value));
        }
    }

    private static string Outline(SheetArea area) =>
        $"M{Number(area.LeftMm)} {Number(area.TopMm)}h{Number(area.WidthMm)}v{Number(area.HeightMm)}h{Number(-area.WidthMm)}z";

    private static string Number(double mm) => mm.ToString("0.####", CultureInfo.InvariantCulture);

    private static string Colour(PaperShape shape, byte grey)
    {
        PaperInk ink = shape.Ink ?? PaperInk.OfGrey(grey);
        return $"rgb({ink.Red},{ink.Green},{ink.Blue})";
    }
}
