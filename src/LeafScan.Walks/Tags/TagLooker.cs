using LeafScan.Frame;
using LeafScan.Leaves;
using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Learned;
using LeafScan.Photos;
using LeafScan.Records;
using OpenCvSharp;

namespace LeafScan.Walks.Tags;

/// <summary>Looks at one file for plant tags, on a small copy.</summary>
public static class TagLooker
{
    /// <summary>What the file shows of tags; nothing when it cannot be read, which measuring then says.</summary>
    /// <param name="path">The file.</param>
    /// <param name="options">How photos are measured.</param>
    /// <param name="limits">What is refused before it is decoded.</param>
    /// <remarks>
    /// A photo is one of a tag if a tag is in it and the photo-kind model takes it for anything but a leaf. Where no code is found,
    /// a tag is believed if the model takes the photo for one, or if something like a printed label is there and the model is not
    /// sure of a leaf. A leaf in such a photo is still measured: a needless question costs less than a tag passed over, after
    /// which every photo would go to the wrong plant.
    /// </remarks>
    public static TagSeen Look(string path, MeasureOptions options, PhotoLimits limits)
    {
        if (!options.Frame.Look)
        {
            return TagSeen.Nothing;
        }

        using Mat? picture = PhotoPreview.At(path, limits, options.Frame.SearchLongSidePx);
        if (picture is null)
        {
            return TagSeen.Nothing;
        }

        TagLook look = FrameReader.LookForTags(picture, options.Frame);
        string[] codes = [.. look.Tags.Select(tag => NameText.Clean(tag.Text.PlantCode)).OfType<string>().DistinctBy(NameText.Key)];

        // A code that no plant can have is as good as unread.
        bool unread = codes.Length == 0 && (look.Unread || look.Tags.Count > 0);
        if (look.OnSheet || options.Kind is not null || LearnedModels.KindOf(picture) is not { } kind)
        {
            return new TagSeen(codes, unread, false);
        }

        bool isTag = (codes.Length > 0 || unread) && kind.Kind != PhotoKind.Leaf;
        bool isLeaf = kind.Kind == PhotoKind.Leaf && kind.Chance >= options.KindSureFrom;
        bool looksLikeTag = kind.Kind == PhotoKind.Tag || (look.Label && !isLeaf);
        return new TagSeen(codes, unread || (codes.Length == 0 && looksLikeTag), isTag);
    }
}
