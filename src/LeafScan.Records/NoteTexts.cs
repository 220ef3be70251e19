namespace LeafScan.Records;

/// <summary>A part of a note that a person may write in their own words.</summary>
public enum NoteBlock
{
    /// <summary>Before all else.</summary>
    Greeting,

    /// <summary>What was seen.</summary>
    Seen,

    /// <summary>What was done.</summary>
    Done,

    /// <summary>What comes next.</summary>
    Next,

    /// <summary>Cautions.</summary>
    Cautions,

    /// <summary>After all else.</summary>
    Closing,
}

/// <summary>A text that a person wrote for the notes on a plant or a place.</summary>
/// <param name="Block">Which part of the note.</param>
/// <param name="ForDay">Walk to whose note it belongs; null when it stands until it is changed.</param>
/// <param name="Words">The text; a line break begins a new paragraph.</param>
public sealed record NoteText(NoteBlock Block, DateOnly? ForDay, string Words)
{
    /// <summary>Longest text that is kept, in UTF-16 characters.</summary>
    public const int Longest = 4000;
}
