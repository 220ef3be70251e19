using LeafScan.Notes.Client;
using LeafScan.Notes.Letters;
using LeafScan.Notes.Paper;
using LeafScan.Trends.Statistics;

namespace LeafScan.Notes.Tests;

public sealed class NoteChartTests
{
    // The demo's B07: almost no damage, care noted on the day after, then much.
    [Fact]
    public void No_mark_of_care_crosses_a_figure_even_where_the_figure_lies_on_the_axis()
    {
        PaperPage chart = NoteChart.Page(Note([(2, 0.013, 0.007, 0.019), (34, 0.18, 0.09, 0.27)], [3, 4, 12]), 172, 36)!;
        FilledBox[] figures = [.. chart.Shapes.OfType<FilledBox>()];
        Assert.Equal(2, figures.Length);
        ThinLine[] marks = [.. chart.Shapes.OfType<ThinLine>().Where(line => line.WidthMm == 0.5)];
        Assert.Equal(3, marks.Length);
        Assert.All(marks, mark => Assert.All(figures, figure => Assert.False(Crosses(mark, figure), $"{mark} crosses {figure}")));
        Assert.All(marks, mark => Assert.All(chart.Shapes.OfType<PaperText>(), text => Assert.False(Crosses(mark, BoxOf(text)), $"{mark} crosses {text.Words}")));
        Assert.All(figures, figure => Assert.InRange(figure.TopMm, 0, 36));
    }

    // Lines are drawn before the paper that figures stand on, ranges and dots after it.
    [Fact]
    public void No_line_between_walks_runs_through_a_figure()
    {
        PaperPage chart = NoteChart.Page(Note([(2, 0.01, 0.005, 0.02), (9, 0.3, 0.2, 0.38), (60, 0.02, 0.01, 0.03)], []), 172, 36)!;
        List<PaperShape> shapes = [.. chart.Shapes];
        int lastLine = shapes.FindLastIndex(shape => shape is ThinLine { WidthMm: 0.25 } line && line.Y1Mm != line.Y2Mm);
        Assert.True(lastLine >= 0 && lastLine < shapes.FindIndex(shape => shape is FilledBox));
    }

    [Theory]
    [InlineData(0.004, 0.02)]
    [InlineData(0.03, 0.05)]
    [InlineData(0.047, 0.05)]
    [InlineData(0.27, 0.4)]
    public void The_scale_stops_just_above_the_highest_range(double high, double top)
    {
        PaperPage chart = NoteChart.Page(Note([(2, high / 2, 0, high), (34, high / 2, 0, high)], []), 172, 36)!;
        string[] words = [.. chart.Shapes.OfType<PaperText>().Select(text => text.Words)];
        Assert.Contains((top * 100).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture) + "\u00A0%", words);
        double tallest = chart.Shapes.OfType<ThinLine>().Where(line => line.WidthMm == 0.45).Max(line => line.Y2Mm - line.Y1Mm);
        Assert.InRange(tallest, 25 * high / top * 0.9, 25);
    }

    // In grey print a colour is its luminance (WCAG 2.2, "relative luminance" and "contrast ratio"): 4.5 to 1 for text, 3 to 1 for lines that carry a meaning.
    [Fact]
    public void Every_ink_can_be_read_in_grey_on_paper_and_on_the_ground_of_the_box()
    {
        foreach ((PaperInk ink, double least) in new[] { (NoteInks.Text, 7.0), (NoteInks.Small, 4.5), (NoteInks.Leaf, 7.0), (NoteInks.Line, 3.0) })
        {
            Assert.True(Contrast(ink, new PaperInk(255, 255, 255)) >= least, $"{ink} on paper");
            Assert.True(Contrast(ink, NoteInks.Ground) >= least, $"{ink} on the box");
        }
    }

    [Fact]
    public void What_was_eaten_away_stands_in_the_box_with_the_figure_and_is_no_damage()
    {
        NoteContent note = Note([(2, 0.01, 0.005, 0.02)], []);
        note = note with { Now = note.Now! with { Chewed = 0.066 }, Words = new NoteWords() };
        PaperPage page = NotePages.Of(note, Frame.Sheets.PaperSize.A4)[0];
        FilledBox box = page.Shapes.OfType<FilledBox>().First();
        PaperText line = page.Shapes.OfType<PaperText>().First(text => text.Words.StartsWith("Besides, 6.6", StringComparison.Ordinal));
        Assert.InRange(line.BaselineMm, box.TopMm, box.TopMm + box.HeightMm);
        Assert.Contains("Besides, 6.6", NoteHtml.Of(note, Frame.Sheets.PaperSize.A4, "en"), StringComparison.Ordinal);
    }

    private static bool Crosses(ThinLine line, FilledBox box) =>
        Math.Max(line.X1Mm, line.X2Mm) > box.LeftMm && Math.Min(line.X1Mm, line.X2Mm) < box.LeftMm + box.WidthMm
        && Math.Max(line.Y1Mm, line.Y2Mm) > box.TopMm && Math.Min(line.Y1Mm, line.Y2Mm) < box.TopMm + box.HeightMm;

    // Capital letters of DejaVu are 0.73 of the size high.
    private static FilledBox BoxOf(PaperText text) => new(text.XMm, text.BaselineMm - (0.73 * text.SizeMm), Typesetter.WidthMm(text.Words, text.SizeMm, text.Bold), 0.73 * text.SizeMm);

    private static double Contrast(PaperInk one, PaperInk other)
    {
        (double dark, double light) = (Math.Min(Luminance(one), Luminance(other)), Math.Max(Luminance(one), Luminance(other)));
        return (light + 0.05) / (dark + 0.05);
    }

    private static double Luminance(PaperInk ink)
    {
        static double Linear(byte level) => level / 255.0 is var share && share <= 0.04045 ? share / 12.92 : Math.Pow((share + 0.055) / 1.055, 2.4);
        return (0.2126 * Linear(ink.Red)) + (0.7152 * Linear(ink.Green)) + (0.0722 * Linear(ink.Blue));
    }

    private static NoteContent Note((int Day, double Damage, double Low, double High)[] walks, int[] care) => new()
    {
        Heading = "Burning bush",
        Day = new DateOnly(2026, 8, 4),
        Now = Figure(walks[^1]),
        Walks = [.. walks.Select(Figure)],
        Marks = [.. care.Select(day => new NoteMark(new DateOnly(2026, 7, 1).AddDays(day - 1), "left alone"))],
        Seen = [],
        Measured = "",
        Limits = "",
    };

    private static NoteFigure Figure((int Day, double Damage, double Low, double High) walk) =>
        new(new DateOnly(2026, 7, 1).AddDays(walk.Day - 1), walk.Damage, new Interval(walk.Low, walk.High, 0.9), 6, 6);
}
