namespace LeafScan.Walks.Tags;

/// <summary>What a photo of a walk shows of plant tags, looked at before anything is measured.</summary>
/// <param name="Codes">Plant codes of the tags that could be read, each once, as they are kept; empty for none.</param>
/// <param name="Unread">Whether it shows a tag, by the look of it, and none could be read.</param>
/// <param name="IsTagPhoto">Whether it was taken of a tag and not of a leaf: nothing on it is measured.</param>
public sealed record TagSeen(IReadOnlyList<string> Codes, bool Unread, bool IsTagPhoto)
{
    /// <summary>No tag.</summary>
    public static readonly TagSeen Nothing = new([], false, false);

    /// <summary>Whether there is a tag, read or not.</summary>
    public bool Any => Codes.Count > 0 || Unread;
}
