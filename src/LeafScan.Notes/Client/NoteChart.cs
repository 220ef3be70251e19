using System.Globalization;
using LeafScan.Notes.Letters;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Client;

/// <summary>The small chart: a dot with its range for each walk, and at the foot what was done.</summary>
public static class NoteChart
{
    private const double LabelMm = 2.7;

    private const double LeftMm = 11;

    private const double MarkRowMm = 3.6;

    private const int MarkRows = 3;

    // The top of the scale is the first of these above all ranges.
    private static readonly double[] Tops = [0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 1];

    /// <summary>The chart as a page of its own, for SVG; null when there is no walk.</summary>
    /// <param name="content">The note.</param>
    /// <param name="widthMm">Width.</param>
    /// <param name="heightMm">Height without the foot.</param>
    public static PaperPage? Page(NoteContent content, double widthMm, double heightMm) => Of(content, widthMm, heightMm) is not { } block
        ? null
        : new PaperPage(widthMm, block.HeightMm, content.Words.Chart, block.Shapes) { Description = Words(content) };

    /// <summary>The same figures in a sentence each, for who cannot see the chart.</summary>
    public static string Words(NoteContent content) => string.Join(" ", content.Walks
        .Select(walk => $"{content.Forms.Day(walk.Day)}: {NoteForms.Percent(walk.Damage)}, between {NoteForms.Range(walk.Interval)}.")
        .Concat(content.Marks.Select(mark => $"{content.Forms.Day(mark.Day)}: {mark.Word}.")));

    internal static PageBlock? Of(NoteContent content, double widthMm, double heightMm)
    {
        if (content.Walks.Count == 0)
        {
            return null;
        }

        PageBlock block = new();
        double top = 4.5;
        double bottom = heightMm - 5;
        double most = Tops.FirstOrDefault(level => level >= content.Walks.Max(walk => walk.Interval.High), 1);
        DateOnly first = content.Walks[0].Day;
        DateOnly last = content.Walks[^1].Day;
        if (content.Marks.Count > 0)
        {
            first = content.Marks[0].Day < first ? content.Marks[0].Day : first;
            last = content.Marks[^1].Day > last ? content.Marks[^1].Day : last;
        }

        double days = Math.Max(1, last.DayNumber - first.DayNumber);
        double left = LeftMm + 10;
        double right = widthMm - 14;
        double X(DateOnly day) => first == last ? (left + right) / 2 : left + ((day.DayNumber - first.DayNumber) / days * (right - left));
        double Y(double share) => bottom - (share / most * (bottom - top));

        foreach (double level in new[] { 0, most / 2, most })
        {
            block.Add(new ThinLine(LeftMm, Y(level), widthMm, Y(level), level == 0 ? 0.25 : 0.12) { Ink = level == 0 ? NoteInks.Small : NoteInks.Rule });
            block.RightText((level * 100).ToString("0.#", CultureInfo.InvariantCulture) + "\u00A0%", LabelMm, LeftMm - 1.5, Y(level) - (LabelMm * 0.62), NoteInks.Small);
        }

        Walks(block, content, X, Y, bottom);
        block.Skip(heightMm - block.HeightMm);
        Marks(block, content, X, bottom, widthMm);
        return block;
    }

    private static void Walks(PageBlock block, NoteContent content, Func<DateOnly, double> x, Func<double, double> y, double bottom)
    {
        double freeFrom = 0;
        for (int i = 0; i < content.Walks.Count; i++)
        {
            NoteFigure walk = content.Walks[i];
            (double at, double high, double low) = (x(walk.Day), y(walk.Interval.High), y(walk.Interval.Low));
            if (i > 0)
            {
                NoteFigure before = content.Walks[i - 1];
                block.Add(new ThinLine(x(before.Day), y(before.Damage), at, y(walk.Damage), 0.15) { Ink = NoteInks.Rule });
            }

            block.Add(
                new ThinLine(at, high, at, low, 0.45) { Ink = NoteInks.Leaf },
                new ThinLine(at - 1.1, high, at + 1.1, high, 0.3) { Ink = NoteInks.Leaf },
                new ThinLine(at - 1.1, low, at + 1.1, low, 0.3) { Ink = NoteInks.Leaf },
                new RoundDot(at, y(walk.Damage), 1.25) { Ink = NoteInks.Leaf });
            string day = content.Forms.Day(walk.Day);
            double half = Typesetter.WidthMm(day, LabelMm, bold: false) / 2;
            bool isLast = i == content.Walks.Count - 1;
            double lastFrom = x(content.Walks[^1].Day) - (Typesetter.WidthMm(content.Forms.Day(content.Walks[^1].Day), LabelMm, bold: false) / 2);
            if (at - half >= freeFrom && (isLast || at + half + 2 <= lastFrom))
            {
                freeFrom = at + half + 2;
                block.Add(new PaperText(at - half, bottom + LabelMm + 1.2, LabelMm, day) { Ink = NoteInks.Small });
                block.Add(new PaperText(at + 2.1, y(walk.Damage) + (LabelMm * 0.36), LabelMm, NoteForms.Percent(walk.Damage)) { Ink = NoteInks.Text, Bold = true });
            }
        }
    }

    // Each mark is a tick on the axis and a word below it, in the first row with room; one word more than fits is only a tick.
    private static void Marks(PageBlock block, NoteContent content, Func<DateOnly, double> x, double bottom, double width)
    {
        if (content.Marks.Count == 0)
        {
            return;
        }

        double[] freeFrom = new double[MarkRows];
        int rows = 0;
        foreach (NoteMark mark in content.Marks)
        {
            double half = Typesetter.WidthMm(mark.Word, LabelMm, bold: false) / 2;
            double at = x(mark.Day);
            double centre = Math.Clamp(at, half, width - half);
            int row = Array.FindIndex(freeFrom, free => centre - half >= free);
            block.Add(new ThinLine(at, bottom - 1.6, at, bottom + 1.2, 0.5) { Ink = NoteInks.Text });
            if (row < 0)
            {
                continue;
            }

            freeFrom[row] = centre + half + 1.8;
            rows = Math.Max(rows, row + 1);
            block.Add(new PaperText(centre - half, block.HeightMm + (row * MarkRowMm) + LabelMm, LabelMm, mark.Word) { Ink = NoteInks.Text });
        }

        block.Skip((rows * MarkRowMm) + 0.8);
    }
}
