using LeafScan.Leaves.Learned;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// Finds the leaves of a photo: several on a plain sheet, or the main one in an ordinary photo. They are found on a small
/// copy; their edge is then drawn at full size.
/// </summary>
public static class OutlineFinder
{
    /// <summary>Finds leaves. Never throws for what the photo shows; a photo without a leaf gives a reason and advice.</summary>
    /// <param name="bgr">8-bit, 3 channels B, G, R, sRGB, upright, full size; not changed.</param>
    /// <param name="options">How to look.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static OutlineResult Find(Mat bgr, OutlineOptions options, CancellationToken cancel = default) => Find(bgr, options, null, cancel);

    /// <summary>The same with the outline network at hand, for photos without a sheet; null goes by colour, focus and place alone.</summary>
    internal static OutlineResult Find(Mat bgr, OutlineOptions options, Network? network, CancellationToken cancel)
    {
        if (Math.Min(bgr.Cols, bgr.Rows) < 24)
        {
            return None("The photo is too small to find a leaf in it.", "Use the photo as the phone took it.");
        }

        using Mat small = SmallCopy(bgr, options.SearchLongSidePx);
        using ColourPlanes planes = ColourPlanes.Of(small);
        cancel.ThrowIfCancellationRequested();
        using PaperModel? paper = PaperModel.Find(planes);
        using Mat mask = Segment(small, planes, paper, network, out bool onSheet);
        cancel.ThrowIfCancellationRequested();
        List<FoundLeaf> leaves = LeafCutter.Cut(bgr, planes, mask, onSheet, options);
        if (leaves.Count == 0 && onSheet && network is not null)
        {
            // Stone and bare ground can be as smooth and grey as a sheet.
            using Mat other = FieldSegmentation.Segment(small, network);
            leaves = LeafCutter.Cut(bgr, planes, other, false, options);
        }

        if (leaves.Count > 0)
        {
            return new OutlineResult { Leaves = leaves };
        }

        return paper is null
            ? None("No leaf stands out from what lies behind it.", "Lay one leaf on a plain sheet and photograph it from above.")
            : None("Only a plain surface was found, no leaf.", "Lay the leaf on the sheet so that it fills a good part of the frame.");
    }

    // A sheet's own way is the most exact where there is one; the network is asked where the sheet may be ground or where most of what
    // lies on it is no leaf.
    private static Mat Segment(Mat small, ColourPlanes planes, PaperModel? paper, Network? network, out bool onSheet)
    {
        onSheet = paper is not null;
        if (paper is null)
        {
            return FieldSegmentation.Segment(small, network);
        }

        if (network is not null && SheetRoughness.Of(planes) > SheetRoughness.MayBeGround)
        {
            Mat seen = FieldSegmentation.Seen(small, network);
            if (Cv2.CountNonZero(seen) > 0)
            {
                onSheet = false;
                return seen;
            }

            seen.Dispose();
        }

        Mat mask = SheetSegmentation.Segment(paper);
        HandCutter.CutOff(mask, planes);
        if (network is not null)
        {
            using Mat instead = FieldSegmentation.Instead(small, mask, planes, network);
            if (Cv2.CountNonZero(instead) > 0)
            {
                instead.CopyTo(mask);
            }
        }

        return mask;
    }

    private static Mat SmallCopy(Mat bgr, int longSide)
    {
        double scale = Math.Min(1, longSide / (double)Math.Max(bgr.Cols, bgr.Rows));
        Mat small = new();
        if (scale >= 1)
        {
            Cv2.GaussianBlur(bgr, small, default, 0.8);
            return small;
        }

        AreaShrink.Into(bgr, small, scale);
        return small;
    }

    private static OutlineResult None(string why, string advice) => new() { WhyNone = why, Advice = advice };
}
