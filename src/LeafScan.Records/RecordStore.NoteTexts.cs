using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Texts that were written for the notes on a plant.</summary>
    public IReadOnlyList<NoteText> NoteTextsOfPlant(long plantId) => NoteTexts("plant_id", plantId);

    /// <summary>Texts that were written for the notes on a place.</summary>
    public IReadOnlyList<NoteText> NoteTextsOfPlace(long placeId) => NoteTexts("place_id", placeId);

    /// <summary>Keeps a text for the notes on a plant; the old one is kept among the edits.</summary>
    /// <param name="plantId">Plant.</param>
    /// <param name="block">Part of the note.</param>
    /// <param name="forDay">Walk to whose note it belongs; null when it stands until it is changed.</param>
    /// <param name="words">The text; null to take it away.</param>
    /// <param name="reason">Why, for the edits.</param>
    /// <exception cref="RecordException">The text is too long or holds control characters.</exception>
    public void SetNoteTextOfPlant(long plantId, NoteBlock block, DateOnly? forDay, string? words, string reason) => SetNoteText("plant_id", plantId, block, forDay, words, reason);

    /// <summary>The same for the notes on a place.</summary>
    /// <param name="placeId">Place.</param>
    /// <param name="block">Part of the note.</param>
    /// <param name="forDay">Walk to whose note it belongs; null when it stands until it is changed.</param>
    /// <param name="words">The text; null to take it away.</param>
    /// <param name="reason">Why, for the edits.</param>
    /// <exception cref="RecordException">The text is too long or holds control characters.</exception>
    public void SetNoteTextOfPlace(long placeId, NoteBlock block, DateOnly? forDay, string? words, string reason) => SetNoteText("place_id", placeId, block, forDay, words, reason);

    /// <summary>Country of the client of a place, as two letters after ISO 3166; null when not told.</summary>
    public string? CountryOfPlace(long placeId) => Read(connection => connection.QuerySingleOrDefault<string>(
        "SELECT client.country FROM place JOIN client ON client.id = place.client_id WHERE place.id = @placeId", new { placeId }));

    /// <summary>Sets the country of a client; the old one is kept among the edits.</summary>
    /// <param name="clientId">Client.</param>
    /// <param name="country">Two letters after ISO 3166; null for none.</param>
    /// <param name="reason">Why, for the edits.</param>
    /// <exception cref="RecordException">Not two letters.</exception>
    public void SetCountry(long clientId, string? country, string reason) => Write(transaction =>
    {
        string? clean = country?.Trim().ToUpperInvariant();
        if (clean is { } letters && !(letters.Length == 2 && letters.All(char.IsAsciiLetterUpper)))
        {
            throw new RecordException(RecordTrouble.WrongValue, $"“{country}” is no country.", "Nothing was written.", "Give two letters after ISO 3166, such as US or DE.");
        }

        SqliteConnection connection = transaction.Connection!;
        string? old = connection.QuerySingle<string?>("SELECT country FROM client WHERE id = @clientId", new { clientId }, transaction);
        connection.Execute("UPDATE client SET country = @clean WHERE id = @clientId", new { clientId, clean }, transaction);
        new ChangeNote(transaction, reason, Now()).Keep("client", clientId, "country", old, clean);
        return true;
    });

    private List<NoteText> NoteTexts(string owner, long id) => Read(connection => connection.Query<(string Block, string? ForDay, string Words)>(
        $"SELECT block, for_day, words FROM note_text WHERE {owner} = @id AND words IS NOT NULL ORDER BY id", new { id })
        .Select(row => new NoteText(Enum.Parse<NoteBlock>(row.Block, ignoreCase: true), UtcText.DateOrNull(row.ForDay), row.Words)).ToList());

    private void SetNoteText(string owner, long id, NoteBlock block, DateOnly? forDay, string? words, string reason) => Write(transaction =>
    {
        string? clean = string.IsNullOrWhiteSpace(words) ? null : ComposedLetters.Join(words.ReplaceLineEndings("\n").Trim());
        if (clean is { } text && (text.Length > NoteText.Longest || text.Any(letter => char.IsControl(letter) && letter != '\n')))
        {
            throw new RecordException(
                RecordTrouble.WrongValue, "The text is too long or holds signs that cannot be printed.", "Nothing was written.", FormattableString.Invariant($"Use at most {NoteText.Longest} characters."));
        }

        SqliteConnection connection = transaction.Connection!;
        var key = new { id, block = block.ToString().ToLowerInvariant(), day = forDay is { } known ? UtcText.Of(known) : null, clean, now = Now() };
        (long Row, string? Old) old = connection.QuerySingleOrDefault<(long, string?)>($"SELECT id, words FROM note_text WHERE {owner} = @id AND block = @block AND for_day IS @day", key, transaction);
        long row = old.Row;
        if (row == 0)
        {
            row = connection.QuerySingle<long>($"INSERT INTO note_text ({owner}, block, for_day, words, written_utc) VALUES (@id, @block, @day, @clean, @now) RETURNING id", key, transaction);
        }
        else
        {
            connection.Execute("UPDATE note_text SET words = @clean, written_utc = @now WHERE id = @row", new { row, key.clean, key.now }, transaction);
        }

        new ChangeNote(transaction, reason, Now()).Keep("note_text", row, "words", old.Old, clean);
        return true;
    });
}
