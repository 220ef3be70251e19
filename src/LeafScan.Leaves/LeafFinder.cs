using System.Diagnostics;
using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.FineTexture;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Leaves.Tissue;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves;

/// <summary>
/// Finds the leaves of a photo by colour and shape and judges their tissue: with the learned network where its file is
/// present, by colour alone where not.
/// </summary>
internal static class LeafFinder
{
    /// <summary>Leaves, largest first; empty, with reason and advice, when there are none. The caller owns them.</summary>
    /// <param name="bgr">The photo that is measured.</param>
    /// <param name="plain">The photo in which leaves are looked for: the same, without the print of a scale sheet.</param>
    /// <param name="options">How to measure.</param>
    /// <param name="edits">What a person said of outlines; empty for nothing.</param>
    /// <param name="cancel">Stops between steps.</param>
    /// <param name="none">Reason and advice when there is no leaf.</param>
    public static List<JudgedLeaf> Find(Mat bgr, Mat plain, MeasureOptions options, IReadOnlyList<OutlineEdit> edits, CancellationToken cancel, out (string Reason, string Advice) none)
    {
        none = default;

        // Not disposed as a whole: each leaf's outline goes on to the judged leaf that owns it.
        OutlineResult outlines = Outlines(plain, options, cancel);
        IReadOnlyList<FoundLeaf> wanted = edits.Count == 0 ? outlines.Leaves : OutlineEdit.Apply(outlines.Leaves, edits, bgr.Size());
        if (wanted.Count == 0)
        {
            none = outlines.Leaves.Count > 0 ? ("Everything that was found here was said to be no leaf.", "Draw the outline of the leaf, or take that back.") : (outlines.WhyNone ?? string.Empty, outlines.Advice ?? string.Empty);
            return [];
        }

        Network? network = options.Tissue.Learned ? ModelFiles.Tissue : null;
        SpeckJudge? judge = network is not null && options.Tissue.SpeckChance <= 1 ? ModelFiles.SpeckJudge : null;
        List<JudgedLeaf> leaves = [];
        foreach (FoundLeaf found in wanted)
        {
            cancel.ThrowIfCancellationRequested();
            if (leaves.Count == options.MostLeaves)
            {
                found.Dispose();
            }
            else
            {
                leaves.Add(network is null
                    ? FineTextureStep.Apply(bgr, ByColour(bgr, found, options.Tissue), options.FineTexture)
                    : Learned(bgr, found, network, judge, options));
            }
        }

        return leaves;
    }

    private static OutlineResult Outlines(Mat plain, MeasureOptions options, CancellationToken cancel)
    {
        using Activity? step = Steps.Begin("outline");
        return OutlineFinder.Find(plain, options.Outline, options.Outline.Learned ? ModelFiles.Outline : null, cancel);
    }

    private static JudgedLeaf Learned(Mat bgr, FoundLeaf found, Network network, SpeckJudge? judge, MeasureOptions options)
    {
        LeafShape? shape = null;
        JudgedLeaf leaf = LearnedLeaf.Judge(bgr, found, network, judge, options.Tissue, whole => shape = LeafShape.Of(bgr, whole, options));
        using LeafShape told = shape!;
        leaf.Chewed = told.Chewed;
        return FineTextureStep.Apply(leaf, told.Texture, options.FineTexture);
    }

    /// <summary>Judges one found leaf by colour; takes ownership of the outline.</summary>
    internal static JudgedLeaf ByColour(Mat bgr, FoundLeaf found, TissueOptions options)
    {
        LeafPatch patch = LeafPatch.Cut(bgr, found, options.LongSidePx);
        return new JudgedLeaf(found, patch, ColourTissue.Read(patch, options));
    }
}
