using LeafScan.Cli.Screen;
using LeafScan.Frame.Sheets;
using LeafScan.Notes.Client;
using LeafScan.Notes.Paper;

namespace LeafScan.Cli.Commands;

/// <summary>Writes a note in the kind its file name asks for.</summary>
internal static class NoteFiles
{
    private const double PictureDotsPerInch = 150;

    /// <summary>Writes it and says so.</summary>
    public static void Write(Surroundings world, string target, NoteContent content, PaperSize paper, string language)
    {
        switch (Path.GetExtension(target).ToUpperInvariant())
        {
            case ".HTML":
                Text(target, NoteHtml.Of(content, paper, language));
                break;
            case ".MD":
                Text(target, NoteMarkdown.Of(content));
                break;
            case ".JSON":
                JsonOut.Write(world, target, NoteDocument.Of(content));
                break;
            case ".PNG":
                Pictures(world, target, content, paper);
                return;
            default:
                PrintCommand.NeedFonts();
                IReadOnlyList<PaperPage> pages = NotePages.Of(content, paper);
                using (MemoryStream whole = new())
                {
                    PdfPaper.Write(whole, pages, new PdfFacts(NotePages.TitleOf(content), world.Time.GetUtcNow())
                    {
                        Author = content.By ?? "",
                        Subject = content.Words.Title,
                        Language = language,
                        TrueScale = false,
                    });
                    SafeFile.Write(target, stream => whole.WriteTo(stream));
                }

                TellLetters(world, content);
                world.Out.WriteLine(Words.OneLine($"Written: {target} ({Words.Count(pages.Count, "page")}, {paper.Name})."));
                return;
        }

        world.Out.WriteLine(Words.OneLine($"Written: {target}."));
    }

    private static void Text(string target, string words) => SafeFile.Write(target, stream =>
    {
        using StreamWriter writer = new(stream, leaveOpen: true) { NewLine = "\n" };
        writer.Write(words);
    });

    private static void Pictures(Surroundings world, string target, NoteContent content, PaperSize paper)
    {
        PrintCommand.NeedFonts();
        IReadOnlyList<PaperPage> pages = NotePages.Of(content, paper);
        for (int i = 0; i < pages.Count; i++)
        {
            string file = i == 0 ? target : Path.ChangeExtension(target, FormattableString.Invariant($"{i + 1}.png"));
            PaperPage page = pages[i];
            SafeFile.Write(file, stream => PngPaper.Write(stream, page, PictureDotsPerInch));
            world.Out.WriteLine(Words.OneLine($"Written: {file}."));
        }

        TellLetters(world, content);
    }

    private static void TellLetters(Surroundings world, NoteContent content)
    {
        if (NoteLetters.CannotSet(content) is { Count: > 0 } parts)
        {
            world.Err.WriteLine(Words.OneLine(
                $"Some letters cannot be set on paper here and stand as {Notes.Letters.Typesetter.MissingLetter}: in {string.Join(", ", parts)}. The same note as .html has them all."));
        }
    }
}
