using LeafScan.Frame.Sheets;
using LeafScan.Notes.Client;
using LeafScan.Notes.Paper;
using LeafScan.Trends.Statistics;
using UglyToad.PdfPig;

namespace LeafScan.Notes.Tests;

/// <summary>Notes read back with PdfPig, which knows nothing of how the PDF was made.</summary>
public sealed class NotePagesTests
{
    [Fact]
    public void A_note_without_earlier_visit_or_photo_is_one_page_whose_text_can_be_read()
    {
        using PdfDocument read = Read(Note("Burning bush"));
        Assert.Equal(1, read.NumberOfPages);
        Assert.Equal((210, 297), ((int)Math.Round(read.GetPage(1).Width / 72 * 25.4), (int)Math.Round(read.GetPage(1).Height / 72 * 25.4)));
        string words = string.Join(' ', read.GetPage(1).GetWords().Select(word => word.Text));
        Assert.Contains("Burning bush", words, StringComparison.Ordinal);
        Assert.Contains("There is no earlier visit", words, StringComparison.Ordinal);
        Assert.Contains("the photos are gone", words, StringComparison.Ordinal);
        Assert.StartsWith("Plant note: Burning bush", read.Information.Title, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_of_300_letters_is_printed_whole()
    {
        string name = string.Concat(Enumerable.Range(0, 300).Select(i => (char)('a' + (i % 26))));
        using PdfDocument read = Read(Note(name));
        string letters = string.Concat(Enumerable.Range(1, read.NumberOfPages).Select(page => string.Concat(read.GetPage(page).Letters.Select(letter => letter.Value)).Replace(" ", "", StringComparison.Ordinal)));
        Assert.Contains(name, letters, StringComparison.Ordinal);
    }

    // Rule L2 of UAX #9: letters of a right-to-left word stand in turned order on paper.
    [Fact]
    public void Hebrew_letters_stand_from_right_to_left()
    {
        using PdfDocument read = Read(Note("שלום"));
        string letters = string.Concat(read.GetPage(1).Letters.Where(letter => letter.Value[0] is >= 'א' and <= 'ת').OrderBy(letter => letter.Location.X).Select(letter => letter.Value));
        Assert.Equal("םולש", letters);
    }

    private static NoteContent Note(string name) => new()
    {
        Heading = name,
        Day = new DateOnly(2026, 8, 4),
        Now = new NoteFigure(new DateOnly(2026, 8, 3), 0.12, new Interval(0.09, 0.16, 0.9), 20, 12),
        Seen = ["20 leaves were measured."],
        PictureMissing = "No picture: the photos are gone.",
        Measured = "Photos were measured.",
        Limits = "Not whether mites are there.",
    };

    private static PdfDocument Read(NoteContent note)
    {
        using MemoryStream pdf = new();
        PdfPaper.Write(pdf, NotePages.Of(note, PaperSize.A4), new PdfFacts(NotePages.TitleOf(note), new DateTimeOffset(2026, 8, 4, 9, 0, 0, TimeSpan.Zero)));
        return PdfDocument.Open(pdf.ToArray());
    }
}
