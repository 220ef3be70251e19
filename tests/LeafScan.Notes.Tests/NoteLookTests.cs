using LeafScan.Notes.Client;
using LeafScan.Records;

namespace LeafScan.Notes.Tests;

public sealed class NoteLookTests
{
    private static readonly DateOnly Day = new(2026, 7, 2);

    // asked: country units paper | client | note: country units paper | page: units dates -> day, units, paper
    [Theory]
    [InlineData(null, null, null, null, null, null, null, null, null, "2 July 2026", false, "a4")]
    [InlineData(null, null, null, null, null, null, null, "in", "month-day-year", "July 2, 2026", true, "a4")]
    [InlineData(null, null, null, null, "DE", null, null, "in", "month-day-year", "02.07.2026", false, "a4")]
    [InlineData(null, null, null, null, "DE", "us", "letter", "mm", null, "02.07.2026", true, "letter")]
    [InlineData(null, null, null, "US", "DE", "metric", "a4", "mm", "year-month-day", "July 2, 2026", true, "letter")]
    [InlineData("SE", null, null, "US", "DE", "us", "letter", "in", null, "2026-07-02", false, "a4")]
    [InlineData("CA", "us", "a4", null, null, null, null, null, null, "2026-07-02", true, "a4")]
    [InlineData(null, "us", null, "DE", null, null, null, null, null, "02.07.2026", true, "a4")]
    public void What_is_asked_goes_before_the_client_the_client_before_the_note_and_the_note_before_the_page(
        string? country, string? units, string? paper, string? client, string? noteCountry, string? noteUnits, string? notePaper, string? pageUnits, string? pageDates, string day, bool us, string size)
    {
        Settings settings = new() { Units = pageUnits, DateForm = pageDates, Note = new NoteSettings { Country = noteCountry, Units = noteUnits, Paper = notePaper } };
        NoteLook look = NoteLook.Of(settings, client, new NoteAsked(country, units, paper));
        Assert.Equal((day, us, size), (look.Forms.Day(Day), look.Forms.UsUnits, look.Paper.Name));
    }

    [Fact]
    public void Whoever_writes_notes_goes_before_whoever_works_at_the_page()
    {
        Settings settings = new() { Who = "Kim" };
        Assert.Equal("Kim", NoteLook.Of(settings, null, new NoteAsked()).By);
        Assert.Equal("Jo", NoteLook.Of(settings with { Note = new NoteSettings { By = "Jo" } }, null, new NoteAsked()).By);
    }
}
