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
    /// <summary>Long side in pixels of the copy on which a tag is tried again: four times the squares of the first look.</summary>
    private const int CloserLongSidePx = 3200;

    /// <summary>What the file shows of tags; nothing when it cannot be read, which measuring then says.</summary>
    /// <param name="path">The file.</param>
    /// <param name="options">How photos are measured.</param>
    /// <param name="limits">What is refused before it is decoded.</param>
    /// <remarks>
    /// A photo is one of a tag if a tag is in it and the photo-kind model takes it for anything but a leaf. Where no code is found,
    /// a tag is believed if the model is sure of one, or if something like a printed label is there and the model is not sure of a leaf;
    /// such a photo is looked at once more, larger. A leaf in such a photo is still measured: a needless question costs less than a tag passed over, after
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
        KindJudgement? kind = look.OnSheet || options.Kind is not null ? null : LearnedModels.KindOf(picture);
        IReadOnlyList<TagSighting> tags = look.Tags;
        bool likeTag = LooksLikeTag(look, kind, options);
        bool unread = false;
        if (tags.Count == 0 && (look.Unread || likeTag))
        {
            using Mat? large = PhotoPreview.At(path, limits, CloserLongSidePx);
            (tags, bool anyCode) = FrameReader.LookCloser(large ?? picture);

            // Somebody else's code beside a leaf means nothing; a photo of somebody else's label still begins another plant.
            unread = tags.Count == 0 && (likeTag || !anyCode);
        }

        string[] codes = [.. tags.Select(tag => NameText.Clean(tag.Text.PlantCode)).OfType<string>().DistinctBy(NameText.Key)];

        // A code that no plant can have is as good as unread.
        unread |= codes.Length == 0 && tags.Count > 0;
        bool isCode = tags.Count > 0 || (look.Unread && unread);
        return new TagSeen(codes, unread, isCode && kind is not null && kind.Kind != PhotoKind.Leaf);
    }

    private static bool LooksLikeTag(TagLook look, KindJudgement? kind, MeasureOptions options)
    {
        bool sure = kind is not null && kind.Chance >= options.KindSureFrom;
        return kind?.Kind switch
        {
            null => false,
            PhotoKind.Tag => look.Label || sure,
            PhotoKind.Leaf => look.Label && !sure,
            _ => look.Label,
        };
    }
}
