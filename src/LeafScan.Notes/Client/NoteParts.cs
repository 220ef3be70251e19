using LeafScan.Notes.Letters;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Client;

/// <summary>The parts of a note as blocks, from top to bottom.</summary>
internal static class NoteParts
{
    private const double LargestTitleMm = 7.6;

    private const double LeastTitleMm = 3.8;

    /// <summary>Every part but the foot.</summary>
    public static IEnumerable<PageBlock> All(NoteContent content, double width, double gap, NoteSizes sizes)
    {
        yield return Head(content, width, sizes);
        foreach (PageBlock paragraph in Paragraphs(content.Greeting, width, sizes))
        {
            yield return paragraph;
        }

        yield return Seen(content, width, gap, sizes);
        if (content.Verdict is { } verdict)
        {
            yield return How(content, verdict, width, sizes);
        }

        if (content.Walks.Count > 1 && NoteChart.Of(content, width, sizes.ChartMm) is { } chart)
        {
            yield return new PageBlock().Text(content.Words.Chart, sizes.Heading, width, NoteInks.Leaf, bold: true).Skip(0.5).Beside(chart, 0, sizes.Heading * 1.5).Skip(3.5);
        }

        foreach (PageBlock row in NotePlantTable.Of(content, width, sizes))
        {
            yield return row;
        }

        foreach (PageBlock block in DoneAndNext(content, width, gap, sizes))
        {
            yield return block;
        }

        foreach (PageBlock paragraph in Paragraphs(content.Closing, width, sizes))
        {
            yield return paragraph;
        }

        if (content.By is { } by)
        {
            PageBlock sign = new();
            sign.Text($"{content.Words.By} {by}", sizes.Text, width, NoteInks.Text, bold: true);
            yield return content.Contact is { } contact ? sign.Text(contact, sizes.Text, width, NoteInks.Small).Skip(3) : sign.Skip(3);
        }
    }

    /// <summary>How it was measured and what it cannot say.</summary>
    public static PageBlock Foot(NoteContent content, double width, NoteSizes sizes) => new PageBlock()
        .Add(new ThinLine(0, 0, width, 0, 0.15) { Ink = NoteInks.Rule })
        .Skip(1.8)
        .Text($"{content.Words.Measured}: {content.Measured}", sizes.Small, width, NoteInks.Small)
        .Skip(0.8)
        .Text($"{content.Words.Limits}: {content.Limits}", sizes.Small, width, NoteInks.Small);

    private static PageBlock Head(NoteContent content, double width, NoteSizes sizes)
    {
        PageBlock block = new();
        block.RightText(content.Forms.Day(content.Day), sizes.Heading, width, 0, NoteInks.Text);
        block.Text(content.Words.Title, sizes.Heading, width * 0.6, NoteInks.Leaf, bold: true).Skip(1.2);

        // A long name gets smaller letters, then more lines; it is never cut.
        double size = LargestTitleMm * sizes.Letters;
        while (size > LeastTitleMm && Typesetter.Wrap(content.Heading, size, true, width).Count > 1)
        {
            size -= 0.4;
        }

        block.Text(content.Heading, size, width, NoteInks.Text, bold: true).Skip(0.6);
        foreach (string line in content.Under)
        {
            block.Text(line, sizes.Text, width, NoteInks.Small);
        }

        if (content.Client is { } client)
        {
            block.Text($"{content.Words.For} {client}", sizes.Text, width, NoteInks.Small);
        }

        return block.Skip(2).Add(new ThinLine(0, block.HeightMm, width, block.HeightMm, 0.4) { Ink = NoteInks.Leaf }).Skip(4);
    }

    private static IEnumerable<PageBlock> Paragraphs(string? text, double width, NoteSizes sizes)
    {
        string[] paragraphs = text?.Split('\n', StringSplitOptions.RemoveEmptyEntries) ?? [];
        return paragraphs.Select((words, i) => new PageBlock().Text(words, sizes.Text, width, NoteInks.Text).Skip(i == paragraphs.Length - 1 ? 4 : 1.5));
    }

    private static PageBlock Seen(NoteContent content, double width, double gap, NoteSizes sizes)
    {
        PageBlock row = new();
        double left = 0;
        if (content.Picture is { } picture)
        {
            double high = Math.Min(sizes.PictureMm, 84.0 * picture.HeightPx / picture.WidthPx);
            double wide = high * picture.WidthPx / picture.HeightPx;
            double column = Math.Max(wide, 60);
            PageBlock shown = new();
            shown.Add(new PaperPicture(0, 0, wide, high, picture.Jpeg)).Skip(high + 1.6).Text(picture.Caption, sizes.Small, column, NoteInks.Small);
            row.Beside(shown, 0);
            left = column + gap;
        }

        double room = width - left;
        PageBlock words = new();
        if (content.Now is { } now)
        {
            words.Beside(Figure(content, now, room, sizes), 0).Skip(3);
        }

        words.Text(content.Words.Seen, sizes.Heading, room, NoteInks.Leaf, bold: true).Skip(0.6);
        foreach (string paragraph in content.Seen)
        {
            words.Text(paragraph, sizes.Text, room, NoteInks.Text).Skip(1);
        }

        if (content.PictureMissing is { } missing)
        {
            words.Text(missing, sizes.Small, room, NoteInks.Small);
        }

        return row.Beside(words, left).Skip(4);
    }

    private static PageBlock Figure(NoteContent content, NoteFigure now, double room, NoteSizes sizes)
    {
        const double Inside = 3.5;
        double inner = room - (2 * Inside);
        PageBlock words = new();
        words.Text(NoteForms.Percent(now.Damage), 11.5 * sizes.Letters, inner, NoteInks.Leaf, bold: true)
            .Text($"of the {NoteThing.Of(now.Kind).Area} shows damage", sizes.Text, inner, NoteInks.Text, bold: true)
            .Text($"Very likely between {NoteForms.Range(now.Interval)}.", sizes.Text, inner, NoteInks.Text);
        if (NoteSentences.Chewed(now) is { } chewed)
        {
            words.Text(chewed, sizes.Text, inner, NoteInks.Text);
        }

        if (content.Before is { } before)
        {
            words.Skip(1.6).Text(
                $"{content.Words.LastTime}, {content.Forms.Day(before.Day)}: {NoteForms.Percent(before.Damage)}, between {NoteForms.Range(before.Interval)}.", sizes.Text, inner, NoteInks.Text);
        }
        else
        {
            words.Skip(1.6).Text("There is no earlier visit to lay beside it.", sizes.Text, inner, NoteInks.Small);
        }

        if (content.Change is { } change)
        {
            words.Skip(0.4).Text(change, sizes.Text, inner, NoteInks.Small);
        }

        double height = words.HeightMm + (2 * Inside) - 1.5;
        return new PageBlock().Add(new FilledBox(0, 0, room, height) { Ink = NoteInks.Ground }).Beside(words, Inside, Inside - 1).Skip(height - words.HeightMm - Inside + 1);
    }

    private static PageBlock How(NoteContent content, string verdict, double width, NoteSizes sizes)
    {
        PageBlock block = new();
        block.Text(content.Words.Care, sizes.Heading, width, NoteInks.Leaf, bold: true).Skip(0.6).Text(verdict, sizes.Text * 1.12, width, NoteInks.Text, bold: true).Skip(0.4);
        block.Text(string.Join(" ", content.Because), sizes.Text, width, NoteInks.Text);
        return block.Skip(3.5);
    }

    private static IEnumerable<PageBlock> DoneAndNext(NoteContent content, double width, double gap, NoteSizes sizes)
    {
        double half = (width - gap) / 2;
        PageBlock done = List(content.Words.Done, content.Done, half, sizes).Beside(List(content.Words.Cautions, content.Cautions, half, sizes), 0, 0, under: true);
        PageBlock next = List(content.Words.Next, content.Next, half, sizes);
        const double Tall = 110;
        if (done.HeightMm <= Tall && next.HeightMm <= Tall)
        {
            yield return done.Beside(next, half + gap).Skip(3.5);
            yield break;
        }

        // Long texts run over the whole width, one paragraph after the other, so that a page may end between them.
        foreach ((string heading, IReadOnlyList<string> lines) in new[] { (content.Words.Done, content.Done), (content.Words.Next, content.Next), (content.Words.Cautions, content.Cautions) })
        {
            for (int i = 0; i < lines.Count; i++)
            {
                yield return i == 0 ? List(heading, [lines[0]], width, sizes) : new PageBlock().Item(lines[i], sizes, width);
            }
        }
    }

    private static PageBlock List(string heading, IReadOnlyList<string> lines, double room, NoteSizes sizes)
    {
        PageBlock block = new();
        if (lines.Count == 0)
        {
            return block;
        }

        block.Text(heading, sizes.Heading, room, NoteInks.Leaf, bold: true).Skip(0.6);
        foreach (string line in lines)
        {
            block.Item(line, sizes, room);
        }

        return block.Skip(2);
    }

    private static PageBlock Item(this PageBlock block, string words, NoteSizes sizes, double room)
    {
        const double Indent = 3.2;
        block.Add(new RoundDot(0.8, block.HeightMm + (sizes.Text * 0.7), 0.45) { Ink = NoteInks.Leaf });
        return block.Text(words, sizes.Text, room - Indent, NoteInks.Text, leftMm: Indent).Skip(0.9);
    }

    private static PageBlock Beside(this PageBlock block, PageBlock other, double leftMm, double topMm, bool under) => block.Beside(other, leftMm, under ? block.HeightMm + topMm : topMm);
}
