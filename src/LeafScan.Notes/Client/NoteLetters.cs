using LeafScan.Notes.Letters;

namespace LeafScan.Notes.Client;

/// <summary>Finds what cannot be set on paper.</summary>
public static class NoteLetters
{
    /// <summary>The parts of a note with letters that no font here has; empty when all can be set.</summary>
    public static IReadOnlyList<string> CannotSet(NoteContent content)
    {
        (string Part, IEnumerable<string?> Texts)[] parts =
        [
            ("the name", [content.Heading]),
            ("the lines below it", content.Under),
            ("the client's name", [content.Client]),
            ("your name or contact", [content.By, content.Contact]),
            ("the greeting", [content.Greeting]),
            ("what was seen", content.Seen),
            ("what was done", content.Done),
            ("what comes next", content.Next),
            ("the cautions", content.Cautions),
            ("the closing", [content.Closing]),
            ("the plants", content.Plants.SelectMany(plant => new[] { plant.Code, plant.Name, plant.Done })),
            ("the headings", NoteWords.Keys.Select(key => content.Words[key])),
        ];
        return [.. parts.Where(part => part.Texts.Any(text => text is not null && !Typesetter.CanSet(text))).Select(part => part.Part)];
    }
}
