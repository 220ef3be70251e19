using LeafScan.Frame.Tags;
using LeafScan.Notes.Paper;
using QRCoder;

namespace LeafScan.Notes.Tags;

/// <summary>
/// Draws plant tags: QR code (ISO/IEC 18004, error correction level Q, so that a quarter may be dirty) with the plant's code
/// beside it in plain text, for codes get dirty and people read too.
/// </summary>
public static class TagPages
{
    private const int QuietModules = 4;

    private const byte CutGrey = 170;

    /// <summary>Null when the tag can be printed, else one sentence that says why not and what to do.</summary>
    public static string? WhyNot(PlantTag tag)
    {
        if (string.IsNullOrWhiteSpace(tag.Code) || tag.Code.Any(char.IsControl))
        {
            return "A tag needs a plant code of letters or digits; nothing was written. Give the code as it stands on record.";
        }

        return ModuleMm(tag) < TagLayout.LeastModuleMm
            ? $"The plant code \"{Cut(tag.Code, 40)}\" is too long for a tag: its squares would be smaller than {TagLayout.LeastModuleMm} mm. Nothing was written. Give the plant a code of at most some twenty characters."
            : null;
    }

    /// <summary>Pages with all tags, in their order.</summary>
    /// <param name="tags">One or more, each with <see cref="WhyNot"/> null.</param>
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

        shapes.Add(new PaperText(TagLayout.EdgeMm, layout.Paper.HeightMm - 4, 2.4, "Print at 100 % on matt weatherproof stock; cut along the lines.") { Grey = 120 });
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
        double module = ModuleMm(tag);
        double codeLeft = left + Math.Max(4, QuietModules * module);
        double codeTop = top + (TagLayout.TagHeightMm - TagLayout.CodeSideMm) / 2;
        List<System.Collections.BitArray> rows = Modules(tag);
        int side = rows.Count - 2 * QuietModules;
        for (int y = 0; y < side; y++)
        {
            for (int x = 0; x < side; x++)
            {
                int from = x;
                while (x < side && rows[y + QuietModules][x + QuietModules])
                {
                    x++;
                }

                if (x > from)
                {
                    yield return new FilledBox(codeLeft + from * module, codeTop + y * module, (x - from) * module, module);
                }
            }
        }

        double wordsLeft = codeLeft + TagLayout.CodeSideMm + Math.Max(3, QuietModules * module);
        double room = left + width - 2 - wordsLeft;
        double size = Math.Min(7, 7 * room / Math.Max(room, PaperFonts.WidthMm(tag.Code, 7, bold: true)));
        (string code, double codeSize) = size >= 2.6 ? (tag.Code, size) : (Fit(tag.Code, 2.6, bold: true, room), 2.6);
        yield return new PaperText(wordsLeft, codeTop + 9, codeSize, code) { Bold = true };
        if (tag.Name is { Length: > 0 } name && CanSet(name))
        {
            yield return new PaperText(wordsLeft, codeTop + 15, 2.6, Fit(name, 2.6, bold: false, room));
        }
    }

    /// <summary>Whether a name can be set as it should look. Letters that join or run from right to left cannot.</summary>
    public static bool CanSet(string name) => name.EnumerateRunes().All(rune => rune.Value is >= 0x20 and < 0x590 or >= 0x1E00 and < 0x2070);

    private static string Fit(string words, double sizeMm, bool bold, double roomMm)
    {
        if (PaperFonts.WidthMm(words, sizeMm, bold) <= roomMm)
        {
            return words;
        }

        int keep = Math.Min(words.Length, 200);
        while (keep > 1 && PaperFonts.WidthMm(Cut(words, keep), sizeMm, bold) > roomMm)
        {
            keep--;
        }

        return Cut(words, keep);
    }

    private static string Cut(string words, int length)
    {
        if (words.Length <= length)
        {
            return words;
        }

        // Not through the middle of a letter made of two parts.
        int keep = char.IsHighSurrogate(words[length - 1]) ? length - 1 : length;
        return words[..keep].TrimEnd() + "…";
    }

    private static double ModuleMm(PlantTag tag)
    {
        try
        {
            return TagLayout.CodeSideMm / (Modules(tag).Count - 2 * QuietModules);
        }
        catch (QRCoder.Exceptions.DataTooLongException)
        {
            return 0;
        }
    }

    private static List<System.Collections.BitArray> Modules(PlantTag tag)
    {
        string text = new TagText(tag.Code, TagLayout.CodeSideMm).Write();

        // Letters beyond ASCII are marked as UTF-8 in the code itself; without the mark a reader guesses.
        bool plain = text.All(char.IsAscii);
        using QRCodeData code = QRCodeGenerator.GenerateQrCode(
            text, QRCodeGenerator.ECCLevel.Q, forceUtf8: !plain, utf8BOM: false, plain ? QRCodeGenerator.EciMode.Default : QRCodeGenerator.EciMode.Utf8);
        return code.ModuleMatrix;
    }
}
