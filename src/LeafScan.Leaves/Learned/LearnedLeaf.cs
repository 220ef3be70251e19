using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Leaves.Tissue;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// Judges one outlined leaf with the tissue network, at the scale at which it was trained: near full size, with some room
/// about the leaf so that the network sees what it lies on.
/// </summary>
internal static class LearnedLeaf
{
    /// <summary>Judges a leaf; takes ownership of its outline.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, full size.</param>
    /// <param name="found">The leaf's outline.</param>
    /// <param name="network">The tissue network.</param>
    /// <param name="judge">Who tells specks from look-alikes, or null.</param>
    /// <param name="options">Thresholds.</param>
    /// <param name="meanwhile">What else is to be done with the outline, in the box in which the leaf is judged, while its tissue is looked at; null for nothing.</param>
    public static JudgedLeaf Judge(Mat bgr, FoundLeaf found, Network network, SpeckJudge? judge, TissueOptions options, Action<FoundLeaf>? meanwhile = null)
    {
        LeafPatch patch = Cut(bgr, found, options, out Mat mask);
        FoundLeaf whole = new(patch.Box, mask, found.Flags);
        TissueMap? tissue = null;
        using ColourMeanwhile colour = new(patch, options);
        Bands.Both(
            () => tissue = LearnedTissue.Read(patch, network, judge, options, colour),
            () =>
            {
                // Asked for first where there is one processor, it is there already.
                _ = judge is null ? null : colour.Finding;
                meanwhile?.Invoke(whole);
            });
        found.Dispose();
        return new JudgedLeaf(whole, patch, tissue!);
    }

    /// <summary>Cuts a leaf out with room about it and brings it to the scale of judging.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, full size.</param>
    /// <param name="found">The leaf's outline.</param>
    /// <param name="options">Scale.</param>
    /// <param name="mask">Receives the outline in the patch's box at full size; the caller disposes it.</param>
    public static LeafPatch Cut(Mat bgr, FoundLeaf found, TissueOptions options, out Mat mask)
    {
        int length = Math.Max(found.Box.Width, found.Box.Height);
        int room = (int)(0.08 * length) + 4;
        Rect box = Rect.Intersect(
            new Rect(found.Box.X - room, found.Box.Y - room, found.Box.Width + (2 * room), found.Box.Height + (2 * room)),
            new Rect(0, 0, bgr.Cols, bgr.Rows));
        mask = new Mat(box.Size, MatType.CV_8UC1, Scalar.All(0));
        using (Mat inner = new(mask, new Rect(found.Box.X - box.X, found.Box.Y - box.Y, found.Box.Width, found.Box.Height)))
        {
            found.Mask.CopyTo(inner);
        }

        double scale = options.ScaleFor(length);
        Mat piece = new();
        Mat there = new();
        using (Mat view = new(bgr, box))
        {
            Scaled(view, piece, scale, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Cubic);
        }

        Scaled(mask, there, scale, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Linear);
        Cv2.Threshold(there, there, 127, 255, ThresholdTypes.Binary);
        return LeafPatch.Of(box, piece, there);
    }

    private static void Scaled(Mat from, Mat to, double scale, InterpolationFlags how)
    {
        if (scale == 1)
        {
            from.CopyTo(to);
        }
        else
        {
            Size size = new(Math.Max(8, (int)Math.Round(from.Cols * scale)), Math.Max(8, (int)Math.Round(from.Rows * scale)));
            if (how == InterpolationFlags.Area)
            {
                AreaShrink.Into(from, to, size);
                return;
            }

            Cv2.Resize(from, to, size, 0, 0, how);
        }
    }
}
