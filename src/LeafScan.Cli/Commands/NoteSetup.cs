using LeafScan.Frame.Sheets;
using LeafScan.Leaves;
using LeafScan.Notes.Client;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>Puts settings, client and options of a note together: an option goes before the client, the client before the settings.</summary>
internal static class NoteSetup
{
    /// <summary>Country of the note; null when nobody told one.</summary>
    public static string? Country(RecordStore store, NoteSettings settings, long placeId, string? option) => option ?? store.CountryOfPlace(placeId) ?? settings.Country;

    /// <summary>Paper of the note.</summary>
    public static PaperSize Paper(NoteSettings settings, string? country, string? option)
    {
        string name = option ?? settings.Paper ?? (country?.ToUpperInvariant() is "US" or "CA" ? PaperSize.Letter.Name : PaperSize.A4.Name);
        return PaperSize.All.FirstOrDefault(size => size.Name == name) ?? PaperSize.A4;
    }

    /// <summary>What a note is made with.</summary>
    /// <param name="settings">The settings.</param>
    /// <param name="country">Country.</param>
    /// <param name="units">"metric" or "us"; null to tell it from settings and country.</param>
    /// <param name="today">Day of the note.</param>
    /// <param name="since">Since when.</param>
    /// <param name="pictures">Draws pictures.</param>
    public static NoteRequest Request(NoteSettings settings, string? country, string? units, DateOnly today, DateOnly? since, Func<PhotoOnRecord, NotePicture?>? pictures) => new()
    {
        Today = today,
        Since = since,
        By = settings.By,
        Contact = settings.Contact,
        Words = new NoteWords().With(settings.Words ?? new Dictionary<string, string>()),
        Forms = new NoteForms(DateForms.Of(country), (units ?? settings.Units ?? (country?.ToUpperInvariant() == "US" ? "us" : "metric")) == "us"),
        ToolVersion = ToolVersion.Current,
        PictureOf = pictures,
    };
}
