using LeafScan.Frame.Sheets;
using LeafScan.Notes.Letters;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Client;

/// <summary>
/// Lays a note out on paper: one page wherever the words allow it. Picture, chart and letters get a little smaller before a
/// second page is begun; what must be read is never cut.
/// </summary>
public static class NotePages
{
    private const double EdgeMm = 19;

    private const double TopMm = 15;

    private const double BottomMm = 12;

    private const double GapMm = 7;

    // Share of the letters' size, height of the picture and of the chart: the first that fits on one page.
    private static readonly NoteSizes[] Ladder =
    [
        new(1, 76, 40), new(1, 66, 34), new(1, 58, 30), new(0.96, 66, 36), new(0.96, 58, 30), new(0.92, 58, 34), new(0.92, 50, 28), new(0.88, 50, 32), new(0.88, 44, 24), new(0.84, 44, 28), new(0.84, 38, 24),
    ];

    private static readonly double[] ChartsMm = [42, 38, 35, 32, 30, 28, 26];

    // Where one page does not do: usual letters, and a picture and a chart that leave room for the rest.
    private static readonly NoteSizes OnSeveral = new(0.96, 58, 30);

    /// <summary>The pages.</summary>
    /// <param name="content">The note.</param>
    /// <param name="paper">The paper.</param>
    public static IReadOnlyList<PaperPage> Of(NoteContent content, PaperSize paper)
    {
        foreach (NoteSizes sizes in Ladder)
        {
            List<PaperPage> pages = Pages(content, paper, sizes);
            if (pages.Count == 1)
            {
                // What room is left goes to the chart, which suffers most from being flat.
                return ChartsMm.Where(mm => mm > sizes.ChartMm).Select(mm => Pages(content, paper, sizes with { ChartMm = mm })).FirstOrDefault(higher => higher.Count == 1, pages);
            }
        }

        return Pages(content, paper, OnSeveral);
    }

    private static List<PaperPage> Pages(NoteContent content, PaperSize paper, NoteSizes sizes)
    {
        double width = paper.WidthMm - (2 * EdgeMm);
        PageBlock foot = NoteParts.Foot(content, width, sizes);
        List<List<PaperShape>> pages = [[]];
        double floor = paper.HeightMm - BottomMm - 4;
        double y = TopMm;
        foreach (PageBlock block in NoteParts.All(content, width, GapMm, sizes))
        {
            if (y + block.HeightMm > floor && y > TopMm)
            {
                pages.Add([]);
                y = TopMm;
            }

            pages[^1].AddRange(block.Shapes.Select(shape => PageBlock.Moved(shape, EdgeMm, y)));
            y += block.HeightMm;
        }

        // How it was measured stands at the foot of the last page.
        double footTop = paper.HeightMm - BottomMm - foot.HeightMm;
        if (y > footTop)
        {
            pages.Add([]);
        }

        pages[^1].AddRange(foot.Shapes.Select(shape => PageBlock.Moved(shape, EdgeMm, footTop)));
        string title = TitleOf(content);
        if (pages.Count > 1)
        {
            for (int page = 0; page < pages.Count; page++)
            {
                string words = FormattableString.Invariant($"{page + 1} / {pages.Count}");
                pages[page].Add(new PaperText(paper.WidthMm - EdgeMm - Typesetter.WidthMm(words, 2.6, bold: false), paper.HeightMm - 7, 2.6, words) { Ink = NoteInks.Small });
            }
        }

        return [.. pages.Select(shapes => new PaperPage(paper.WidthMm, paper.HeightMm, title, shapes))];
    }

    /// <summary>Title of the document.</summary>
    public static string TitleOf(NoteContent content) => $"{content.Words.Title}: {content.Heading}, {content.Forms.Day(content.Day)}";
}

/// <summary>How large the parts of a note are.</summary>
/// <param name="Letters">Share of the usual size of letters.</param>
/// <param name="PictureMm">Greatest height of the picture.</param>
/// <param name="ChartMm">Height of the chart without its foot.</param>
internal sealed record NoteSizes(double Letters, double PictureMm, double ChartMm)
{
    /// <summary>Text.</summary>
    public double Text => 3.55 * Letters;

    /// <summary>Captions and small print.</summary>
    public double Small => Math.Max(2.45, 2.75 * Letters);

    /// <summary>Headings of parts.</summary>
    public double Heading => 3.4 * Letters;
}
