using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Tissue;
using OpenCvSharp;

namespace LeafScan.Leaves;

/// <summary>Finds the leaves of a photo and judges their tissue: with the learned networks where they are present, by colour alone where not.</summary>
internal static class LeafFinder
{
    /// <summary>Leaves, largest first; empty, with reason and advice, when there are none. The caller owns them.</summary>
    public static List<JudgedLeaf> Find(Mat bgr, MeasureOptions options, CancellationToken cancel, out (string Reason, string Advice) none)
    {
        none = default;
        if (options.Tissue.Learned && ModelFiles.Outline is { } outline && ModelFiles.Tissue is { } tissue)
        {
            List<JudgedLeaf> learned = LearnedLeaves.Find(bgr, outline, tissue, options, cancel);
            if (learned.Count == 0)
            {
                none = ("No leaf stands out from what lies around it.", "Lay one leaf on a plain sheet, or come closer until one leaf fills most of the frame.");
            }

            return learned;
        }

        return ByColour(bgr, options, cancel, ref none);
    }

    private static List<JudgedLeaf> ByColour(Mat bgr, MeasureOptions options, CancellationToken cancel, ref (string Reason, string Advice) none)
    {
        // Not disposed as a whole: each leaf's outline goes on to the judged leaf that owns it.
        OutlineResult outlines = OutlineFinder.Find(bgr, options.Outline, cancel);
        if (outlines.Leaves.Count == 0)
        {
            none = (outlines.WhyNone ?? string.Empty, outlines.Advice ?? string.Empty);
            return [];
        }

        List<JudgedLeaf> leaves = [];
        foreach (FoundLeaf found in outlines.Leaves)
        {
            cancel.ThrowIfCancellationRequested();
            if (leaves.Count == options.MostLeaves)
            {
                found.Dispose();
                continue;
            }

            leaves.Add(ByColour(bgr, found, options.Tissue));
        }

        return leaves;
    }

    /// <summary>Judges one found leaf by colour; takes ownership of the outline.</summary>
    internal static JudgedLeaf ByColour(Mat bgr, FoundLeaf found, TissueOptions options)
    {
        LeafPatch patch = LeafPatch.Cut(bgr, found, options.LongSidePx);
        return new JudgedLeaf(found, patch, ColourTissue.Read(patch, options));
    }
}
