using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Walks.Measuring;
using LeafScan.Walks.Tags;

namespace LeafScan.Walks;

/// <summary>One file of a walk's folder, looked at before anything is measured.</summary>
/// <param name="Item">The file.</param>
/// <param name="Sha256">Fingerprint; null when the file could not be read.</param>
/// <param name="Day">Day on which it was taken, by the camera's clock; null when unknown.</param>
/// <param name="Plant">Which plant it shows.</param>
/// <param name="Leaf">Age and label of its leaf, as folder and file name tell.</param>
/// <param name="Known">The photo on record with the same bytes; null when it is new.</param>
/// <param name="Refusal">Why the gate refuses it; null when it goes on.</param>
/// <param name="TwinOf">Label of an earlier file of this folder with the same bytes; null when there is none.</param>
public sealed record WalkFile(
    PhotoItem Item, string? Sha256, DateOnly? Day, PlantGuess Plant, LeafWords Leaf, PhotoOnRecord? Known, PhotoRefusal? Refusal, string? TwinOf)
{
    /// <summary>When it was taken, by the camera's clock; null when the file does not say.</summary>
    public CaptureTime? Taken { get; init; }

    /// <summary>What it shows of plant tags, once they were read.</summary>
    public TagSeen Tag { get; init; } = TagSeen.Nothing;

    /// <summary>Whether tag, folder and file name disagree about the plant, or several tags do.</summary>
    public bool PlantUnsure { get; init; }

    /// <summary>Names from <see cref="Flag"/> for what is doubtful about its plant; they belong on its reading.</summary>
    public IEnumerable<string> Doubts
    {
        get
        {
            if (Tag.Unread)
            {
                yield return Flag.TagUnread.Name;
            }

            if (PlantUnsure)
            {
                yield return Flag.PlantUnsure.Name;
            }
        }
    }

    /// <summary>Whether the file is to be measured.</summary>
    public bool IsNew => Known is null && Refusal is null && TwinOf is null;
}
