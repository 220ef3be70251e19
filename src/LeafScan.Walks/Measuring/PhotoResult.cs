using LeafScan.Leaves.Reading;
using LeafScan.Photos;

namespace LeafScan.Walks.Measuring;

/// <summary>What became of one file: exactly one of <see cref="Reading"/> and <see cref="Refusal"/>.</summary>
/// <param name="Item">The file.</param>
/// <param name="Facts">Facts of the file; null when it could not be read as a photo.</param>
/// <param name="Reading">The reading, under the item's label.</param>
/// <param name="Refusal">The refusal, under the item's label.</param>
public sealed record PhotoResult(PhotoItem Item, PhotoFacts? Facts, PhotoReading? Reading, PhotoRefusal? Refusal)
{
    /// <summary>A file that was refused.</summary>
    public static PhotoResult Refused(PhotoItem item, PhotoFacts? facts, PhotoRefusal refusal) =>
        new(item, facts, null, refusal with { FileName = item.Label });
}
