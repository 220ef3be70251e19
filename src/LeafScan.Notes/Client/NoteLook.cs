using LeafScan.Frame.Sheets;
using LeafScan.Records;

namespace LeafScan.Notes.Client;

/// <summary>What was said on the command itself; null for what was not.</summary>
/// <param name="Country">Country in whose form days are written, two letters.</param>
/// <param name="Units">"metric" or "us".</param>
/// <param name="Paper">"a4" or "letter".</param>
public sealed record NoteAsked(string? Country = null, string? Units = null, string? Paper = null);

/// <summary>
/// Who writes notes and cards, and in which form. One rule for each of them: what is said with the command goes before the client's
/// country, that before what is kept for notes, that before what is kept for the page, and last comes the usual. A country stands
/// for its form of days, its units and its paper, but never goes before a unit or paper that was told in the same step.
/// </summary>
public sealed record NoteLook
{
    /// <summary>Who writes; null when not told.</summary>
    public string? By { get; init; }

    /// <summary>How to reach them; null when not told.</summary>
    public string? Contact { get; init; }

    /// <summary>Country whose forms are used; null when none was told.</summary>
    public string? Country { get; init; }

    /// <summary>How days and sizes are written.</summary>
    public required NoteForms Forms { get; init; }

    /// <summary>Paper.</summary>
    public required PaperSize Paper { get; init; }

    /// <summary>Language of the words as a BCP 47 tag.</summary>
    public string Language { get; init; } = "en";

    /// <summary>Headings.</summary>
    public NoteWords Words { get; init; } = new();

    /// <summary>Puts it together.</summary>
    /// <param name="settings">What is kept in the data folder.</param>
    /// <param name="clientCountry">Country of the client; null when not told.</param>
    /// <param name="asked">What was said with the command.</param>
    public static NoteLook Of(Settings settings, string? clientCountry, NoteAsked asked)
    {
        NoteSettings kept = settings.Note;
        (string? Country, string? Units, string? Paper, DateForm? Dates)[] steps =
        [
            (asked.Country, asked.Units, asked.Paper, null),
            (clientCountry, null, null, null),
            (kept.Country, kept.Units, kept.Paper, null),
            (null, settings.Units switch { "in" => Us, "mm" => Metric, _ => null }, null, PageDates(settings.DateForm)),
        ];
        string? units = steps.Select(step => step.Units ?? (step.Country is { } country ? (IsUs(country) ? Us : Metric) : null)).FirstOrDefault(word => word is not null);
        string? paper = steps.Select(step => step.Paper ?? (step.Country is { } country ? (IsLetter(country) ? PaperSize.Letter : PaperSize.A4).Name : null)).FirstOrDefault(word => word is not null);
        DateForm? dates = steps.Select(step => step.Dates ?? (step.Country is { } country ? DateForms.Of(country) : null)).FirstOrDefault(form => form is not null);
        return new NoteLook
        {
            By = kept.By ?? settings.Who,
            Contact = kept.Contact,
            Country = steps.Select(step => step.Country).FirstOrDefault(country => country is not null),
            Forms = new NoteForms(dates ?? DateForms.Of(null), units == Us),
            Paper = PaperSize.All.FirstOrDefault(size => size.Name == paper) ?? PaperSize.A4,
            Language = kept.Language ?? "en",
            Words = new NoteWords().With(kept.Words ?? new Dictionary<string, string>()),
        };
    }

    private const string Us = "us";

    private const string Metric = "metric";

    private static bool IsUs(string country) => string.Equals(country, "US", StringComparison.OrdinalIgnoreCase);

    private static bool IsLetter(string country) => country.ToUpperInvariant() is "US" or "CA";

    private static DateForm? PageDates(string? form) => form switch
    {
        "year-month-day" => DateForm.YearFirst,
        "day-month-year" => DateForm.DayMonthInWords,
        "month-day-year" => DateForm.MonthInWordsDay,
        _ => null,
    };
}
