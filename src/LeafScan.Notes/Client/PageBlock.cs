using LeafScan.Notes.Letters;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Client;

/// <summary>A piece of a page that is never cut: shapes whose origin is its upper left corner.</summary>
internal sealed class PageBlock
{
    private const double LineStep = 1.36;

    private readonly List<PaperShape> _shapes = [];

    /// <summary>Its height so far.</summary>
    public double HeightMm { get; private set; }

    /// <summary>Its shapes.</summary>
    public IReadOnlyList<PaperShape> Shapes => _shapes;

    /// <summary>Leaves room.</summary>
    public PageBlock Skip(double mm)
    {
        HeightMm += mm;
        return this;
    }

    /// <summary>Adds shapes without moving on.</summary>
    public PageBlock Add(params IEnumerable<PaperShape> shapes)
    {
        _shapes.AddRange(shapes);
        return this;
    }

    /// <summary>Sets a text below what is there. A paragraph read from right to left stands at the right edge when it has several lines.</summary>
    public PageBlock Text(string words, double sizeMm, double roomMm, PaperInk ink, bool bold = false, double leftMm = 0)
    {
        IReadOnlyList<SetLine> lines = Typesetter.Wrap(words, sizeMm, bold, roomMm);
        foreach (SetLine line in lines)
        {
            double left = leftMm + (line.FromRight && lines.Count > 1 ? roomMm - line.WidthMm : 0);
            Line(line, left, HeightMm + (sizeMm * 1.02), sizeMm, ink, bold);
            HeightMm += sizeMm * LineStep;
        }

        return this;
    }

    /// <summary>Sets a line with its right end at a place, without moving on.</summary>
    public PageBlock RightText(string words, double sizeMm, double rightMm, double topMm, PaperInk ink, bool bold = false)
    {
        SetLine line = Typesetter.Wrap(words, sizeMm, bold, 1000)[0];
        Line(line, rightMm - line.WidthMm, topMm + (sizeMm * 1.02), sizeMm, ink, bold);
        return this;
    }

    /// <summary>A block beside this one; the height is that of the taller.</summary>
    public PageBlock Beside(PageBlock other, double leftMm, double topMm = 0)
    {
        _shapes.AddRange(other.Shapes.Select(shape => Moved(shape, leftMm, topMm)));
        HeightMm = Math.Max(HeightMm, topMm + other.HeightMm);
        return this;
    }

    /// <summary>A shape at another place.</summary>
    public static PaperShape Moved(PaperShape shape, double x, double y) => shape switch
    {
        FilledBox box => box with { LeftMm = box.LeftMm + x, TopMm = box.TopMm + y },
        ThinLine line => line with { X1Mm = line.X1Mm + x, X2Mm = line.X2Mm + x, Y1Mm = line.Y1Mm + y, Y2Mm = line.Y2Mm + y },
        RoundDot dot => dot with { XMm = dot.XMm + x, YMm = dot.YMm + y },
        PaperPicture picture => picture with { LeftMm = picture.LeftMm + x, TopMm = picture.TopMm + y },
        PaperText text => text with { XMm = text.XMm + x, BaselineMm = text.BaselineMm + y },
        _ => throw new ArgumentException($"A note has no {shape.GetType().Name}.", nameof(shape)),
    };

    private void Line(SetLine line, double left, double baseline, double size, PaperInk ink, bool bold) =>
        _shapes.AddRange(line.Pieces.Where(piece => piece.Words.Trim().Length > 0)
            .Select(piece => new PaperText(left + piece.LeftMm, baseline, size, piece.Words) { Bold = bold, Ink = ink, Family = piece.Family }));
}
