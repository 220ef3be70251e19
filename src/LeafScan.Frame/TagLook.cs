namespace LeafScan.Frame;

/// <summary>What a photo shows of plant tags.</summary>
/// <param name="Tags">Tags that could be read, in no order.</param>
/// <param name="Unread">
/// Whether something with the look of a QR code is there and no code at all could be read. A code of somebody else's that can be read is
/// no tag and is passed over.
/// </param>
/// <param name="Label">Whether something like a printed label is there; proves nothing alone.</param>
/// <param name="OnSheet">Whether a scale sheet is in the photo, so that it was taken for what lies on the sheet.</param>
public sealed record TagLook(IReadOnlyList<TagSighting> Tags, bool Unread, bool Label, bool OnSheet)
{
    /// <summary>No tag.</summary>
    public static readonly TagLook Nothing = new([], false, false, false);
}
