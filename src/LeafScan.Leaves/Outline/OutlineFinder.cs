using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// Finds leaves in a photo by colour and shape: leaves on a plain sheet by their colour against the paper's, whatever the
/// light, and the main leaf of a field photo by focus, place and colour. Finds on a small copy, draws the edge at full size.
/// </summary>
public static class OutlineFinder
{
    /// <summary>Finds the leaves.</summary>
    /// <param name="bgr">8-bit B, G, R, sRGB, upright, full size.</param>
    /// <param name="options">How to search.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static OutlineResult Find(Mat bgr, OutlineOptions options, CancellationToken cancel = default)
    {
        using Mat small = new();
        double scale = Math.Min(1.0, options.SearchSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        Cv2.Resize(bgr, small, default, scale, scale, InterpolationFlags.Area);
        using ColourRatios ratios = ColourRatios.Of(small);
        PaperModel? paper = PaperModel.Fit(small, ratios, options);
        cancel.ThrowIfCancellationRequested();
        using Mat mask = paper is not null ? SheetLeaves.Find(small, ratios, paper, options) : FieldLeaf.Find(small, ratios, options);
        cancel.ThrowIfCancellationRequested();
        List<FoundLeaf> leaves = LeafPieces.Cut(bgr, small, mask, paper is not null, options);
        if (leaves.Count > 0)
        {
            return new OutlineResult { Leaves = leaves, OnSheet = paper is not null };
        }

        return paper is not null
            ? new OutlineResult { WhyNone = "Only the sheet can be seen, no leaf.", Advice = "Lay the leaf in the middle of the sheet and come closer.", OnSheet = true }
            : new OutlineResult { WhyNone = "No leaf stands out from what lies around it.", Advice = "Hold a white sheet behind the leaf, or come closer until one leaf fills most of the frame." };
    }
}
