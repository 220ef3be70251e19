using System.Globalization;
using System.Text.RegularExpressions;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;
using OpenCvSharp;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Tokens;

namespace LeafScan.Cli.Tests;

/// <summary>
/// Notes made by the command as a person makes them, and read back by Poppler's programs and by PdfPig, which know nothing of how
/// they were made.
/// </summary>
public sealed class NoteOnPaperTests : IDisposable
{
    private const string Hebrew = "גדר תאשור ליד השער";

    // With letters that have dots above a body that other letters share: those need the font's parts of parts.
    private const string Arabic = "سياج البقس عند الباب";

    // Shapes of the letters of that name and the letters themselves: field 5 of UnicodeData.txt, Unicode 15.
    private static readonly Dictionary<char, char> PlainLetters = new()
    {
        ['\uFE8D'] = '\u0627',
        ['\uFE8E'] = '\u0627',
        ['\uFE8F'] = '\u0628',
        ['\uFE92'] = '\u0628',
        ['\uFE9D'] = '\u062C',
        ['\uFEAA'] = '\u062F',
        ['\uFEB2'] = '\u0633',
        ['\uFEB3'] = '\u0633',
        ['\uFECB'] = '\u0639',
        ['\uFED8'] = '\u0642',
        ['\uFEDF'] = '\u0644',
        ['\uFEE8'] = '\u0646',
        ['\uFEF4'] = '\u064A',
    };

    private readonly TestDoor _door = new();

    [NeedsFact("pdftotext", "pdfinfo", "pdffonts")]
    public async Task A_note_of_a_plant_with_no_earlier_visit_has_its_paper_title_language_and_fonts()
    {
        using (RecordStore store = Open())
        {
            SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 7, 2), 0.12);
        }

        await DoneAsync("note", "sender", "--by", "Jo Brandt", "--language", "de", "--heading", "title=Pflanzenbericht");
        await DoneAsync("note", "EU-1", "--paper", "letter", "--out", _door.At("note.pdf"));
        string text = TextOf("note.pdf");
        Assert.Contains("There is no earlier visit to lay beside it.", text, StringComparison.Ordinal);
        Assert.Contains("12 %", text, StringComparison.Ordinal);
        Assert.Contains("Jo Brandt", text, StringComparison.Ordinal);
        Assert.DoesNotContain("walk by walk", text, StringComparison.Ordinal);

        // US Letter is 8.5 by 11 inches of 72 points.
        string facts = Outside.Run("pdfinfo", _door.At("note.pdf"));
        Assert.Matches(@"Page size: +612 x 792 pts", facts);
        Assert.Matches(@"Pages: +1\s", facts);
        Assert.Matches(@"Title: +Pflanzenbericht: EU-1, ", facts);
        Assert.Matches(@"Author: +Jo Brandt", facts);
        using PdfDocument read = PdfDocument.Open(_door.At("note.pdf"));
        Assert.True(read.Structure.Catalog.CatalogDictionary.TryGet(NameToken.Create("Lang"), out StringToken language));
        Assert.Equal("de", language.Data);
        FontsAreInside("note.pdf");
    }

    [NeedsFact("pdftotext")]
    public async Task A_note_of_40_photos_is_one_page_and_counts_them()
    {
        string file = SomePhoto.Leaf(_door.At("leaf.jpg"));
        using (RecordStore store = Open())
        {
            SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 6, 2), 0.05);
            for (int i = 0; i < 40; i++)
            {
                // The leaf nearest to the mean is the one whose photo is there.
                SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 7, 2), i == 20 ? 0.1 : 0.08 + (i * 0.001), i, i == 20 ? file : null);
            }
        }

        await DoneAsync("note", "EU-1", "--out", _door.At("note.pdf"));
        string text = TextOf("note.pdf");
        Assert.Contains("40 leaves on 40 photos", text, StringComparison.Ordinal);
        Assert.Contains("The leaf nearest to the mean", text, StringComparison.Ordinal);
        using PdfDocument read = PdfDocument.Open(_door.At("note.pdf"));
        Assert.Equal(1, read.NumberOfPages);
        Assert.Single(read.GetPage(1).GetImages());
    }

    [NeedsFact("pdftotext", "pdffonts")]
    public async Task A_name_of_300_letters_is_kept_and_printed_whole()
    {
        string name = string.Concat(Enumerable.Range(0, 300).Select(i => i % 9 == 8 ? ' ' : (char)('a' + (i % 26))));
        Assert.Equal(300, name.Length);
        Begin();
        await DoneAsync("plants", "set", "EU-1", "--name", name);
        await DoneAsync("note", "EU-1", "--out", _door.At("note.pdf"));
        await DoneAsync("note", "EU-1", "--out", _door.At("note.html"));
        await DoneAsync("card", "EU-1", "--out", _door.At("card.png"));
        Assert.Contains(WithoutBlanks(name), WithoutBlanks(TextOf("note.pdf")), StringComparison.Ordinal);
        Assert.Contains(name, await File.ReadAllTextAsync(_door.At("note.html")), StringComparison.Ordinal);
        using PdfDocument read = PdfDocument.Open(_door.At("note.pdf"));
        Assert.Equal(1, read.NumberOfPages);
        double right = read.GetPage(1).Letters.Max(letter => letter.BoundingBox.Right);
        Assert.True(right < read.GetPage(1).Width - 40, $"letters reach {right} of {read.GetPage(1).Width}");

        Ran tooLong = await _door.RunAsync("plants", "set", "EU-1", "--name", new string('x', 401));
        Assert.Equal((ExitCode.WrongUse, true), (tooLong.Code, tooLong.Err.Contains("1 to 400 characters", StringComparison.Ordinal)));
    }

    // pdftotext puts right-to-left text into the order in which it is read; had it been turned twice or not at all, it would come out backwards.
    [NeedsFact("pdftotext", "pdffonts", "pdftoppm")]
    public async Task Hebrew_and_Arabic_names_are_read_in_their_order_from_the_PDF_and_look_alike_in_the_picture()
    {
        Begin();
        foreach (string name in (string[])[Hebrew, Arabic])
        {
            await DoneAsync("plants", "set", "EU-1", "--name", name);
            await DoneAsync("note", "EU-1", "--out", _door.At("note.pdf"));
            await DoneAsync("note", "EU-1", "--out", _door.At("note.png"));
            string read = new([.. TextOf("note.pdf").Where(letter => CharUnicodeInfo.GetUnicodeCategory(letter) != UnicodeCategory.Format).Select(letter => PlainLetters.GetValueOrDefault(letter, letter))]);
            Assert.Contains(name, read, StringComparison.Ordinal);
            FontsAreInside("note.pdf");

            // The strip with the name, as Poppler draws the PDF and as we draw the picture: the same ink in the same places.
            Outside.Run("pdftoppm", "-r", "150", "-gray", "-png", "-singlefile", _door.At("note.pdf"), _door.At("poppler"));
            using Mat theirs = Strip(_door.At("poppler.png"));
            using Mat ours = Strip(_door.At("note.png"));
            double same = Alike(theirs, ours);
            using Mat turned = ours.Flip(FlipMode.Y);
            Assert.True(same > 0.9, $"{name}: {same}");
            Assert.True(Alike(theirs, turned) < 0.5, "the check would not see turned letters");
        }
    }

    [NeedsFact("pdftotext")]
    public async Task A_plant_without_any_photo_has_a_note_that_says_so()
    {
        using (RecordStore store = Open())
        {
            store.FindOrAddPlant(store.FindOrAddPlace("Hill nursery").Id, "EU-9");
        }

        foreach (string ending in (string[])["pdf", "html", "md", "png", "json"])
        {
            await DoneAsync("note", "EU-9", "--out", _door.At("note." + ending));
        }

        Assert.Contains("This plant has not been measured yet.", TextOf("note.pdf"), StringComparison.Ordinal);
        Ran card = await _door.RunAsync("card", "EU-9", "--out", _door.At("card.jpg"));
        Assert.Equal(ExitCode.NothingMeasurable, card.Code);
    }

    [Fact]
    public async Task The_page_for_the_browser_asks_for_nothing_from_outside()
    {
        string file = SomePhoto.Leaf(_door.At("leaf.jpg"));
        using (RecordStore store = Open())
        {
            SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 6, 2), 0.05);
            SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 7, 2), 0.12, 1, file);
        }

        await DoneAsync("plants", "set", "EU-1", "--name", "<script src=//evil.example/x.js></script>");
        await DoneAsync("note", "EU-1", "--out", _door.At("note.html"));
        string html = await File.ReadAllTextAsync(_door.At("note.html"));
        Assert.Contains("<svg", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<link", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotMatch(@"@import|url\(", html);
        Assert.All(Regex.Matches(html, @"\b(?:src|href|srcset|action|data)\s*=\s*""([^""]*)""").Select(match => match.Groups[1].Value), address => Assert.StartsWith("data:image/jpeg;base64,", address, StringComparison.Ordinal));
        Assert.All(Regex.Matches(html, @"https?://[^\s""<]+").Select(match => match.Value), address => Assert.Equal("http://www.w3.org/2000/svg", address));
    }

    public void Dispose() => _door.Dispose();

    private RecordStore Open() => RecordStore.Open(_door.DataFolder, TimeProvider.System);

    private void Begin()
    {
        using RecordStore store = Open();
        SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 6, 2), 0.05);
        SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 7, 2), 0.12, 1);
    }

    private async Task DoneAsync(params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    private string TextOf(string pdf) => Regex.Replace(Outside.Run("pdftotext", "-layout", _door.At(pdf), "-"), @"[\s\u00A0]+", " ");

    private static string WithoutBlanks(string text) => text.Replace(" ", "", StringComparison.Ordinal);

    // A line a font: name, type, encoding, embedded, subset, unicode.
    private void FontsAreInside(string pdf)
    {
        string[] fonts = [.. Outside.Run("pdffonts", _door.At(pdf)).Split('\n').Skip(2).Where(line => line.Length > 0)];
        Assert.NotEmpty(fonts);
        Assert.All(fonts, font => Assert.Matches(@" yes (yes|no) +(yes|no) +\d+ +\d+$", font));
    }

    // A4 at 150 dots an inch: the name stands between 17 and 28 mm from the top.
    private static Mat Strip(string file)
    {
        using Mat page = Cv2.ImRead(file, ImreadModes.Grayscale);
        using Mat strip = page.SubMat(new Rect(100, 108, page.Cols - 200, 62)).Clone();
        Mat soft = new();
        Cv2.BitwiseNot(strip, strip);
        Cv2.GaussianBlur(strip, soft, new Size(0, 0), 2);
        return soft;
    }

    private static double Alike(Mat one, Mat other)
    {
        using Mat result = new();
        using Mat cut = other.SubMat(new Rect(4, 4, Math.Min(one.Cols, other.Cols) - 8, Math.Min(one.Rows, other.Rows) - 8));
        Cv2.MatchTemplate(one, cut, result, TemplateMatchModes.CCoeffNormed);
        Cv2.MinMaxLoc(result, out _, out double best);
        return best;
    }
}
