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

    private const double DotMm = 1.25;

    // The top of the scale is the first of these above all ranges. Under 2 % a chart would make much of what nobody sees.
    private static readonly double[] Tops = [0.02, 0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 1];

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
        double top = 5;
        double bottom = heightMm - 6;
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
        // Lines first: a figure stands on paper of its own, so that none runs through it.
        for (int i = 1; i < content.Walks.Count; i++)
        {
            (NoteFigure from, NoteFigure to) = (content.Walks[i - 1], content.Walks[i]);
            block.Add(new ThinLine(x(from.Day), y(from.Damage), x(to.Day), y(to.Damage), 0.25) { Ink = NoteInks.Line });
        }

        double freeFrom = 0;
        string lastDay = content.Forms.Day(content.Walks[^1].Day);
        double lastFrom = x(content.Walks[^1].Day) - (Typesetter.WidthMm(lastDay, LabelMm, bold: false) / 2);
        for (int i = 0; i < content.Walks.Count; i++)
        {
            NoteFigure walk = content.Walks[i];
            (double at, double high, double low) = (x(walk.Day), y(walk.Interval.High), y(walk.Interval.Low));
            string day = content.Forms.Day(walk.Day);
            double half = Typesetter.WidthMm(day, LabelMm, bold: false) / 2;
            bool isNamed = at - half >= freeFrom && (i == content.Walks.Count - 1 || at + half + 2 <= lastFrom);
            if (isNamed)
            {
                freeFrom = at + half + 2;
                block.Add(new PaperText(at - half, bottom + LabelMm + 2.2, LabelMm, day) { Ink = NoteInks.Small });
                Figure(block, NoteForms.Percent(walk.Damage), at, Math.Min(high, y(walk.Damage) - DotMm) - 0.9);
            }

            block.Add(
                new ThinLine(at, high, at, low, 0.45) { Ink = NoteInks.Leaf },
                new ThinLine(at - 1.1, high, at + 1.1, high, 0.3) { Ink = NoteInks.Leaf },
                new ThinLine(at - 1.1, low, at + 1.1, low, 0.3) { Ink = NoteInks.Leaf },
                new RoundDot(at, y(walk.Damage), DotMm) { Ink = NoteInks.Leaf });
        }
    }

    // Above the range, where neither the axis nor what was done can cross it.
    private static void Figure(PageBlock block, string words, double at, double baseline)
    {
        double half = Typesetter.WidthMm(words, LabelMm, bold: true) / 2;
        block.Add(
            new FilledBox(at - half - 0.5, baseline - (LabelMm * 0.8), (2 * half) + 1, LabelMm, 255),
            new PaperText(at - half, baseline, LabelMm, words) { Ink = NoteInks.Text, Bold = true });
    }

    // Each mark is a tick below the axis and a word under it, in the first row with room; one word more than fits is only a tick.
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
            block.Add(new ThinLine(at, bottom, at, bottom + 2, 0.5) { Ink = NoteInks.Text });
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
