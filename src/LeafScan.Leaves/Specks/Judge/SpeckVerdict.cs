using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>Carries a verdict into the leaf's codes: what was rejected becomes sound, what was accepted gets its pixels.</summary>
internal static class SpeckVerdict
{
    // Where specks have run together many a candidate is turned down for being no speck of its own, on tissue that is speck all
    // the same: only one that is plainly none takes pixels from a patch that holds accepted ones (decision 047).
    private const float PlainlyNone = 0.2f;

    // A centre is placed between pixels, at most half of one away from its leaf pixel.
    private const int RoomPx = 2;

    /// <summary>Changes the codes and gives the accepted specks.</summary>
    /// <param name="candidates">All candidates of the leaf.</param>
    /// <param name="chances">For each one the chance that it is a speck, 0..1.</param>
    /// <param name="least">Smallest chance at which it counts as one.</param>
    /// <param name="codes">Mask codes from the network.</param>
    /// <param name="smooth">The strength in which a speck's shape is grown (<see cref="SpeckFinder.Smooth"/>).</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="yellowed">255 where tissue is diffusely yellowed.</param>
    public static List<SpeckMark> Apply(List<SpeckCandidate> candidates, float[] chances, double least, Mat codes, Mat smooth, Mat mask, Mat yellowed)
    {
        using Mat sound = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Sound), Scalar.All((int)MaskCode.Sound), sound);
        Rect part = LeafPatch.PartOf(mask, RoomPx);
        using (Mat near = new(codes, part))
        {
            Reject(candidates, chances, least, near, part.TopLeft);
        }

        // Pixels that the network took for sound, for specks that it did not code.
        using Mat covered = new(codes.Size(), MatType.CV_8UC1, Scalar.All(0));
        SpeckShape shape = new(smooth, mask, yellowed);
        List<SpeckMark> specks = [];
        for (int i = 0; i < candidates.Count; i++)
        {
            if (chances[i] < least)
            {
                continue;
            }

            SpeckCandidate c = candidates[i];
            specks.Add(c.Mark);
            if (c[SpeckFeature.CodedShare] > 0.25f)
            {
                continue;
            }

            (int x, int y) = Pixel(c, default);
            if (c.ByNetwork || !shape.Fill(covered, x, y, c.FilterPx, out _))
            {
                Cv2.Circle(covered, new Point(x, y), Math.Max(1, (int)Math.Round((c.Mark.DiameterPx - 1) / 2)), Scalar.All(255), -1);
            }
        }

        Cv2.BitwiseAnd(covered, sound, covered);
        codes.SetTo(Scalar.All((int)MaskCode.Speck), covered);
        return specks;
    }

    // A patch of speck pixels goes when all of its candidates were rejected; where verdicts are mixed the nearest decides. Codes are those
    // of a part of the patch; all candidates lie in it.
    private static void Reject(List<SpeckCandidate> candidates, float[] chances, double least, Mat codes, Point corner)
    {
        using Mat speck = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        using Mat labels = new();
        int count = Cv2.ConnectedComponents(speck, labels, PixelConnectivity.Connectivity8, MatType.CV_32S);
        bool[] good = new bool[count];
        bool[] bad = new bool[count];
        using Mat seeds = new(codes.Size(), MatType.CV_8UC1, Scalar.All(255));
        for (int i = 0; i < candidates.Count; i++)
        {
            (int x, int y) = Pixel(candidates[i], corner);
            (chances[i] >= least ? good : bad)[labels.AsRow<int>(y)[x]] = true;
            if (chances[i] >= least || chances[i] < PlainlyNone)
            {
                seeds.AsRow<byte>(y)[x] = 0;
            }
        }

        if (!bad.Skip(1).Any(b => b))
        {
            return;
        }

        using Mat distance = new();
        using Mat nearest = new();
        Cv2.DistanceTransformWithLabels(seeds, distance, nearest, DistanceTypes.L2, DistanceTransformMasks.Mask5, DistanceTransformLabelTypes.Pixel);
        HashSet<int> rejected = [];
        for (int i = 0; i < candidates.Count; i++)
        {
            if (chances[i] < least && chances[i] < PlainlyNone)
            {
                (int x, int y) = Pixel(candidates[i], corner);
                rejected.Add(nearest.AsRow<int>(y)[x]);
            }
        }

        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> code = codes.AsRow<byte>(y);
            ReadOnlySpan<int> patch = labels.AsRow<int>(y);
            ReadOnlySpan<int> next = nearest.AsRow<int>(y);
            for (int x = 0; x < code.Length; x++)
            {
                if (patch[x] > 0 && bad[patch[x]] && (!good[patch[x]] || rejected.Contains(next[x])))
                {
                    code[x] = (byte)MaskCode.Sound;
                }
            }
        }
    }

    private static (int X, int Y) Pixel(SpeckCandidate c, Point corner) => ((int)Math.Round(c.Mark.X) - corner.X, (int)Math.Round(c.Mark.Y) - corner.Y);
}
