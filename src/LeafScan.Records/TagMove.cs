namespace LeafScan.Records;

/// <summary>A photo that a tag gave to another plant after both were on record.</summary>
/// <param name="ChangeId">Number of the change; all that one tag moved have the same, and <see cref="RecordStore.UndoChange"/> takes it back.</param>
/// <param name="PhotoId">Photo.</param>
/// <param name="FileName">Its file name.</param>
/// <param name="Before">Code of its plant before; null for none.</param>
/// <param name="After">Code of its plant after; null for none.</param>
/// <param name="Because">Why, one sentence.</param>
/// <param name="MovedAt">When.</param>
/// <param name="IsUndone">Whether a person took it back.</param>
public sealed record TagMove(long ChangeId, long PhotoId, string FileName, string? Before, string? After, string Because, DateTimeOffset MovedAt, bool IsUndone)
{
    // Begins the reason of every edit that a late tag made; by it they are told from edits by hand.
    internal const string Reason = "a tag that came later: ";

    /// <summary>The sentence in the reason of an edit that a late tag made; null when a person made it.</summary>
    public static string? BecauseOf(string reason) => reason.StartsWith(Reason, StringComparison.Ordinal) ? reason[Reason.Length..] : null;
}
