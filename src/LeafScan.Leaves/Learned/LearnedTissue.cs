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
    // Where the network errs it doubts: its doubtful pixels, the area of candidates that the judge turned down times their
    // chance of being a speck after all, and the like for those it took. What is added for specks and patches themselves is a
    // share of their shares. Fitted on 60 rendered scenes (seeds 366000 to 387011) and the implants, one half, and tried on the
    // other (docs/decisions/041-interval-of-damage.md).
    private const double DoubtWeight = 1.2;
    private const double MissedWeight = 0.7;
    private const double TooManyWeight = 1.75;
    private const double SpecksTooMany = 0.15;
    private const double SpecksMissed = 0.07;
    private const double YellowError = 0.11;

    // How far beyond the leaf the network looks: see docs/decisions/045-less-room-about-a-leaf.md.
    private const int RoomPx = 96;

    // ln 3
    private const float SureLead = 1.0986f;

    private static readonly byte[] CodeOfClass =
    [
        (byte)MaskCode.Sound, (byte)MaskCode.Sound, (byte)MaskCode.Speck, (byte)MaskCode.Yellowed, (byte)MaskCode.Browned, (byte)MaskCode.Unassessed,
    ];

    /// <summary>Reads the tissue of one leaf.</summary>
    /// <param name="patch">The leaf with some room about it, at the scale of judging.</param>
    /// <param name="network">The tissue network.</param>
    /// <param name="judge">Who tells specks from look-alikes; null takes the network's word for it.</param>
    /// <param name="options">Thresholds.</param>
    public static TissueMap Read(LeafPatch patch, Network network, SpeckJudge? judge, TissueOptions options)
    {
        Mat codes = new(patch.Bgr.Size(), MatType.CV_8UC1, Scalar.All(0));
        List<SpeckMark> specks = [];
        Sums sums = default;
        (double Missed, double TooMany) expected = default;
        Run(patch, network, scores =>
        {
            using (Steps.Begin("classes"))
            {
                sums = Classify(scores, patch.Mask, codes);
            }

            if (judge is null)
            {
                specks = SpeckPeaks.Find(scores, patch.Mask, options.SpeckCentreScore);
                Drop(specks, codes);
            }
            else
            {
                Activity? finding = Steps.Begin("speck candidates");
                using CandidateSet found = CandidateSet.Of(patch, scores, codes, options);
                finding?.Dispose();
                using Activity? judging = Steps.Begin("speck judge");
                float[] chances = judge.Chances(found.Candidates);
                bool[] accepted = Array.ConvertAll(chances, chance => chance >= options.SpeckChance);
                expected = ExpectedErrors(found.Candidates, chances, accepted);
                specks = SpeckVerdict.Apply(found.Candidates, accepted, codes, found.Response, patch.Mask, found.Yellowed);
            }
        });
        if (judge is null && options.SureStrength <= 1)
        {
            SecondLook.Add(patch, codes, specks, options);
        }

        bool split = options.SplitMergedFields && MergedFields.Split(specks, codes, patch.Mask) > 0;
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
            Classify(scores, patch.Mask, codes);
            using CandidateSet found = CandidateSet.Of(patch, scores, codes, options);
            candidates = found.Candidates;
        });
        return candidates;
    }

    private static void Run(LeafPatch patch, Network network, UseScores use)
    {
        // In training the network was given a chance of leaf, never a hard edge.
        using Mat prior = new();
        Cv2.GaussianBlur(patch.Mask, prior, default, 1.5);
        Rect part = patch.Near(RoomPx);
        using Mat near = new(patch.Bgr, part);
        using Mat nearPrior = new(prior, part);
        using Planes planes = Planes.Of(near, nearPrior);
        Activity? step = Steps.Begin("tissue network");
        network.Run(planes.Values, planes.Channels, planes.Size, outputs =>
        {
            step?.Dispose();
            use(new TissueScores(outputs[0].Span, outputs[1].Span, outputs[2].Span, planes.Size, part));
        });
    }

    private static Sums Classify(TissueScores all, Mat mask, Mat codes)
    {
        ReadOnlySpan<float> scores = all.ClassScores;
        Size size = all.Size;
        int plane = size.Width * size.Height;
        Sums sums = default;
        int rows = mask.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> inside = mask.AsRow<byte>(y);
            Span<byte> to = codes.AsRow<byte>(y);
            for (int x = 0; x < inside.Length; x++)
            {
                if (inside[x] == 0)
                {
                    continue;
                }

                int at = all.At(x, y);
                int best = TissueScores.Sound;
                float most = scores[(TissueScores.Sound * plane) + at];
                for (int c = TissueScores.Speck; c < TissueScores.Classes; c++)
                {
                    float score = scores[(c * plane) + at];
                    if (score > most)
                    {
                        (best, most) = (c, score);
                    }
                }

                to[x] = CodeOfClass[best];
                if (best == TissueScores.Unassessed)
                {
                    continue;
                }

                // Scores are logarithms of odds: three to one either way is what counts as sure.
                float hurt = MathF.Max(scores[(TissueScores.Speck * plane) + at], MathF.Max(scores[(TissueScores.Yellowed * plane) + at], scores[(TissueScores.Browned * plane) + at]));
                float lead = hurt - scores[(TissueScores.Sound * plane) + at];
                sums.Judged++;
                sums.HurtLow += lead > SureLead ? 1 : 0;
                sums.HurtHigh += lead > -SureLead ? 1 : 0;
                sums.Speck += best == TissueScores.Speck ? 1 : 0;
                sums.Yellow += best == TissueScores.Yellowed ? 1 : 0;
                sums.Brown += best == TissueScores.Browned ? 1 : 0;
            }
        }

        return sums;
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

    private delegate void UseScores(TissueScores scores);

    private struct Sums
    {
        public double Judged;
        public double HurtLow;
        public double HurtHigh;
        public double Speck;
        public double Yellow;
        public double Brown;

        // Damage with the network's doubt about pixels, about whole specks and about where patches end.
        public readonly (double Low, double High) Interval(double speckPixels, double missedPx, double tooManyPx)
        {
            if (Judged == 0)
            {
                return (0, 0);
            }

            double hurt = Speck + Yellow + Brown;
            double damage = (speckPixels + Yellow + Brown) / Judged;
            double specks = speckPixels / Judged;
            double yellow = YellowError * Yellow / Judged;
            double low = damage - Math.Sqrt(Square(DoubtWeight * (hurt - HurtLow) / Judged) + Square(TooManyWeight * tooManyPx / Judged) + Square(SpecksTooMany * specks) + Square(yellow));
            double high = damage + Math.Sqrt(Square(DoubtWeight * (HurtHigh - hurt) / Judged) + Square(MissedWeight * missedPx / Judged) + Square(SpecksMissed * specks) + Square(yellow));
            return (low, high);
        }
    }
}
