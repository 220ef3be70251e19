using LeafScan.Records;

namespace LeafScan.Notes.Client;

/// <summary>Lays the texts that a person wrote over what was composed.</summary>
internal static class NoteTextsOver
{
    /// <summary>The content with those texts. One for another walk is passed over; one for this walk goes before one that stands.</summary>
    /// <param name="content">What was composed.</param>
    /// <param name="texts">Texts on record.</param>
    /// <param name="walk">Walk the note is on; null when there is none.</param>
    public static NoteContent Lay(NoteContent content, IReadOnlyList<NoteText> texts, DateOnly? walk)
    {
        string? Text(NoteBlock block) => texts.Where(text => text.Block == block && (text.ForDay is null || text.ForDay == walk)).OrderBy(text => text.ForDay is null).FirstOrDefault()?.Words;
        IReadOnlyList<string> Lines(NoteBlock block, IReadOnlyList<string> composed) =>
            Text(block) is { } words ? [.. words.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)] : composed;
        return content with
        {
            Greeting = Text(NoteBlock.Greeting),
            Seen = Lines(NoteBlock.Seen, content.Seen),
            Done = Lines(NoteBlock.Done, content.Done),
            Next = Lines(NoteBlock.Next, content.Next),
            Cautions = Lines(NoteBlock.Cautions, content.Cautions),
            Closing = Text(NoteBlock.Closing),
        };
    }
}
