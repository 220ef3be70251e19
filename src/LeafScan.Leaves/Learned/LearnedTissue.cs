using System.Diagnostics;
using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Leaves.Tissue;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// Judges tissue with the learned network: a class for every pixel, and a map of speck centres with their diameters. What
/// the network is unsure about becomes the width of the interval.
/// </summary>
internal static class LearnedTissue
{
    // In pixels of the photo: where specks are smaller than this across, no number follows from their area.
    private const double SmallestSplitPx = 2;

    // Of all specks; fewer that were added in merged fields make the count no estimate.
    private const double SayFromShare = 0.02;

    // How far beyond the leaf the network looks: see docs/decisions/045-less-room-about-a-leaf.md.
    private const int RoomPx = 96;

    /// <summary>Reads the tissue of one leaf.</summary>
    /// <param name="patch">The leaf with some room about it, at the scale of judging.</param>
    /// <param name="network">The tissue network.</param>
    /// <param name="judge">Who tells specks from look-alikes; null takes the network's word for it.</param>
    /// <param name="options">Thresholds.</param>
    public static TissueMap Read(LeafPatch patch, Network network, SpeckJudge? judge, TissueOptions options)
    {
        using ColourMeanwhile colour = new(patch, options);
        return Read(patch, network, judge, options, colour);
    }

    /// <summary>The same with what colour sees on the leaf, which somebody else may be working out at the same time.</summary>
    public static TissueMap Read(LeafPatch patch, Network network, SpeckJudge? judge, TissueOptions options, ColourMeanwhile colour)
    {
        Mat codes = new(patch.Bgr.Size(), MatType.CV_8UC1, Scalar.All(0));
        List<SpeckMark> specks = [];
        IReadOnlyList<SpeckPlace> places = [];
        TissueClasses sums = default;
        (double Missed, double TooMany) expected = default;
        Run(patch, network, scores =>
        {
            using (Steps.Begin("classes"))
            {
                sums = TissueClasses.Code(scores, patch.Mask, codes, options.YellowedLead);
            }

            places = scores.Places;
            if (judge is null)
            {
                specks = SpeckPeaks.Find(scores, patch.Mask, options.SpeckCentreScore);
                Drop(specks, codes);
            }
            else
            {
                Activity? finding = Steps.Begin("speck candidates");
                ColourFinding seen = colour.Finding;
                using CandidateSet found = CandidateSet.Of(patch, seen, scores, codes, options);
                finding?.Dispose();
                using Activity? judging = Steps.Begin("speck judge");
                float[] chances = judge.Chances(found.Candidates);
                bool[] accepted = Array.ConvertAll(chances, chance => chance >= options.SpeckChance);
                expected = ExpectedErrors(found.Candidates, chances, accepted);
                specks = SpeckVerdict.Apply(found.Candidates, chances, options.SpeckChance, codes, seen.Smooth, patch.Mask, found.Yellowed);
            }
        });
        if (judge is null && options.SureStrength <= 1)
        {
            SecondLook.Add(patch, codes, specks, options);
        }

        bool split = false;
        if (options.SplitMergedFields)
        {
            using Activity? splitting = Steps.Begin("merged fields");
            int added = MergedFields.Split(specks, SpeckPlaces.Beyond(places, specks, codes), codes, patch.Mask, SmallestSplitPx * Math.Max(1, patch.Scale));
            split = added > 0 && added >= SayFromShare * specks.Count;
        }

        double covered = Covered(codes);
        (double low, double high) = sums.Interval(judge is null ? sums.Speck : covered, expected.Missed, expected.TooMany);
        List<string> flags = [];
        if (split)
        {
            flags.Add(Flag.CountEstimated.Name);
        }
        else if (covered > 0 && Merged(covered, specks))
        {
            flags.Add(Flag.CountIsLowerBound.Name);
        }

        return new TissueMap(codes, specks, low, high, flags);
    }

    /// <summary>What may be a speck on a leaf, for training the judge.</summary>
    public static List<SpeckCandidate> Candidates(LeafPatch patch, Network network, TissueOptions options)
    {
        using Mat codes = new(patch.Bgr.Size(), MatType.CV_8UC1, Scalar.All(0));
        List<SpeckCandidate> candidates = [];
        Run(patch, network, scores =>
        {
            TissueClasses.Code(scores, patch.Mask, codes, options.YellowedLead);
            using ColourFinding colour = ColourFinding.Of(patch, options);
            using CandidateSet found = CandidateSet.Of(patch, colour, scores, codes, options);
            candidates = found.Candidates;
        });
        return candidates;
    }

    private static void Run(LeafPatch patch, Network network, Action<TissueScores> use)
    {
        // In training the network was given a chance of leaf, never a hard edge.
        using Mat prior = new();
        Cv2.GaussianBlur(patch.Mask, prior, default, 1.5);
        Rect part = patch.Near(RoomPx);
        using Mat near = new(patch.Bgr, part);
        using Mat nearPrior = new(prior, part);
        using Planes planes = Planes.Of(near, nearPrior);
        Activity? step = Steps.Begin("tissue network");
        TissueAnswer.Ask(network, planes, part, scores =>
        {
            step?.Dispose();
            use(scores);
        });
    }

    private static double Square(double x) => x * x;

    // A centre on brown or unjudged tissue is no speck.
    private static void Drop(List<SpeckMark> specks, Mat codes)
        => specks.RemoveAll(s => codes.AsRow<byte>((int)Math.Round(s.Y))[(int)Math.Round(s.X)] is (byte)MaskCode.Browned or (byte)MaskCode.Unassessed);

    // Square pixels of speck to be expected among what the judge turned down, and of other things among what it took.
    private static (double Missed, double TooMany) ExpectedErrors(List<SpeckCandidate> candidates, float[] chances, bool[] accepted)
    {
        double missed = 0;
        double tooMany = 0;
        for (int i = 0; i < chances.Length; i++)
        {
            double area = Math.PI * Square(candidates[i].Mark.DiameterPx) / 4;
            missed += accepted[i] ? 0 : chances[i] * area;
            tooMany += accepted[i] ? (1 - chances[i]) * area : 0;
        }

        return (missed, tooMany);
    }

    private static double Covered(Mat codes)
    {
        using Mat speck = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        return Cv2.CountNonZero(speck);
    }

    // Specks that cover more than one and a half times the area of their own discs have run together.
    private static bool Merged(double covered, List<SpeckMark> specks)
    {
        double discs = specks.Sum(s => Math.PI * s.DiameterPx * s.DiameterPx / 4);
        return specks.Count > 0 && covered > 50 && covered > 1.5 * discs;
    }
}
