using System.Globalization;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Tags;

/// <summary>
/// Draws plant tags: a QR code with the plant's code beside it in plain text, for codes get dirty and people read too. A code
/// in letters that cannot be set gets a line to write it on by hand.
/// </summary>
public static class TagPages
{
    private const byte CutGrey = 170;

    private const double NameMm = 2.6;

    /// <summary>Null when the tag can be printed, else one sentence that says why not and what to do.</summary>
    /// <param name="tag">The tag.</param>
    /// <param name="layout">Paper and sizes.</param>
    public static string? WhyNot(PlantTag tag, TagLayout layout)
    {
        if (string.IsNullOrWhiteSpace(tag.Code) || !tag.Code.EnumerateRunes().All(TagWords.IsSeen))
        {
            return "A tag needs a plant code of letters or digits that can be seen; nothing was written for it. Give the code as it stands on record.";
        }

        bool small = TagCode.ModuleMm(tag) < TagLayout.LeastModuleMm;
        return small || (CanSet(tag.Code) && TagWords.Code(tag.Code, RoomMm(tag, layout.TagWidthMm)) is null)
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"The plant code \"{TagWords.Cut(tag.Code, 40)}\" is too long for a tag: {(small ? $"its squares would be smaller than {TagLayout.LeastModuleMm} mm" : "it does not fit beside the square in letters that can be read")}. Nothing was written for it. Give the plant a code of at most some twenty characters.")
            : null;
    }

    /// <summary>Pages with all tags, in their order.</summary>
    /// <param name="tags">One or more, each with <see cref="WhyNot(PlantTag, TagLayout)"/> null.</param>
    /// <param name="layout">Paper and sizes.</param>
    public static IReadOnlyList<PaperPage> Of(IReadOnlyList<PlantTag> tags, TagLayout layout)
    {
        int each = TagLayout.Across * layout.Down;
        return [.. tags.Chunk(each).Select((some, page) => Page(some, layout, page))];
    }

    private static PaperPage Page(PlantTag[] tags, TagLayout layout, int page)
    {
        List<PaperShape> shapes = [];
        int rows = (tags.Length + TagLayout.Across - 1) / TagLayout.Across;
        shapes.AddRange(CutLines(layout, rows));
        for (int i = 0; i < tags.Length; i++)
        {
            double left = TagLayout.EdgeMm + i % TagLayout.Across * layout.TagWidthMm;
            double top = TagLayout.EdgeMm + i / TagLayout.Across * TagLayout.TagHeightMm;
            shapes.AddRange(Tag(tags[i], left, top, layout.TagWidthMm));
        }

        shapes.Add(new PaperText(TagLayout.EdgeMm, layout.Paper.HeightMm - 6.5, 2.4, "Print at 100 % on matt weatherproof stock; cut along the lines.") { Grey = 120 });
        return new PaperPage(layout.Paper.WidthMm, layout.Paper.HeightMm, $"LeafScan plant tags, page {page + 1}", shapes);
    }

    private static IEnumerable<PaperShape> CutLines(TagLayout layout, int rows)
    {
        double right = TagLayout.EdgeMm + TagLayout.Across * layout.TagWidthMm;
        double bottom = TagLayout.EdgeMm + rows * TagLayout.TagHeightMm;
        for (int row = 0; row <= rows; row++)
        {
            double y = TagLayout.EdgeMm + row * TagLayout.TagHeightMm;
            yield return new ThinLine(TagLayout.EdgeMm, y, right, y, 0.15, CutGrey);
        }

        for (int column = 0; column <= TagLayout.Across; column++)
        {
            double x = TagLayout.EdgeMm + column * layout.TagWidthMm;
            yield return new ThinLine(x, TagLayout.EdgeMm, x, bottom, 0.15, CutGrey);
        }
    }

    private static IEnumerable<PaperShape> Tag(PlantTag tag, double left, double top, double width)
    {
        double module = TagCode.ModuleMm(tag);
        double codeLeft = left + TagLayout.WhiteMm;
        double codeTop = top + (TagLayout.TagHeightMm - TagLayout.CodeSideMm) / 2;
        yield return TagCode.Draw(tag, codeLeft, codeTop);

        double wordsLeft = codeLeft + TagLayout.CodeSideMm + Math.Max(3, TagCode.QuietModules * module);
        double room = RoomMm(tag, width);
        double baseline = codeTop + 10;
        if (!CanSet(tag.Code))
        {
            yield return new ThinLine(wordsLeft, baseline, wordsLeft + room, baseline, 0.2, CutGrey);
        }
        else if (TagWords.Code(tag.Code, room) is var (lines, size))
        {
            double y = lines.Count == 1 ? codeTop + 9 : codeTop + size;
            foreach (string line in lines)
            {
                yield return new PaperText(wordsLeft, y, size, line) { Bold = true };
                baseline = y;
                y += size * TagWords.LineStep;
            }
        }

        if (tag.Name is { Length: > 0 } name && CanSet(name))
        {
            yield return new PaperText(wordsLeft, Math.Max(codeTop + 15, baseline + 4.5), NameMm, TagWords.Name(name, NameMm, room));
        }
    }

    /// <summary>Whether words can be set as they should look. Letters that join or run from right to left cannot.</summary>
    public static bool CanSet(string words) => TagWords.CanSet(words);

    private static double RoomMm(PlantTag tag, double width) =>
        width - TagLayout.WhiteMm - TagLayout.CodeSideMm - Math.Max(3, TagCode.QuietModules * TagCode.ModuleMm(tag)) - 2;
}
