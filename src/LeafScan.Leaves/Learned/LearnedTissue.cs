using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
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
    // Order of the network's classes, as it was trained.
    private const int Sound = 1;
    private const int Speck = 2;
    private const int Yellowed = 3;
    private const int Browned = 4;
    private const int Unassessed = 5;
    private const int Classes = 6;

    // Fitted so that 46 of 50 readings of known truth (30 implants, 20 demo leaves) held it, as shares of the shares: natural
    // marks are taken for specks, silvery specks are missed, patches end too early or too late. To be checked on leaves kept apart.
    private const double SpecksTooMany = 0.6;
    private const double SpecksMissed = 1.2;
    private const double YellowError = 0.3;

    // ln 3
    private const float SureLead = 1.0986f;

    private static readonly byte[] CodeOfClass =
    [
        (byte)MaskCode.Sound, (byte)MaskCode.Sound, (byte)MaskCode.Speck, (byte)MaskCode.Yellowed, (byte)MaskCode.Browned, (byte)MaskCode.Unassessed,
    ];

    /// <summary>Reads the tissue of one leaf.</summary>
    /// <param name="patch">The leaf with some room about it, at the scale of judging.</param>
    /// <param name="network">The tissue network.</param>
    /// <param name="options">Thresholds.</param>
    public static TissueMap Read(LeafPatch patch, Network network, TissueOptions options)
    {
        (Mat bgr, Mat mask) = (patch.Bgr, patch.Mask);
        // In training the network was given a chance of leaf, never a hard edge.
        using Mat prior = new();
        Cv2.GaussianBlur(mask, prior, default, 1.5);
        using Planes planes = Planes.Of(bgr, prior);
        Mat codes = new(bgr.Size(), MatType.CV_8UC1, Scalar.All(0));
        List<SpeckMark> specks = [];
        Sums sums = default;
        network.Run(planes.Values, planes.Channels, planes.Size, outputs =>
        {
            sums = Classify(outputs[0].Span, planes.Size, mask, codes);
            specks = SpeckPeaks.Find(outputs[1].Span, outputs[2].Span, planes.Size, mask, options.SpeckCentreScore);
        });
        Drop(specks, codes);
        if (options.SureStrength <= 1)
        {
            SecondLook.Add(patch, codes, specks, options);
        }

        List<string> flags = [];
        if (sums.Speck > 0 && Merged(codes, specks))
        {
            flags.Add(Flag.CountIsLowerBound.Name);
        }

        return new TissueMap(codes, specks, sums.Low, sums.High, flags);
    }

    private static Sums Classify(ReadOnlySpan<float> scores, Size size, Mat mask, Mat codes)
    {
        int plane = size.Width * size.Height;
        Sums sums = default;
        double hurtLow = 0, hurtHigh = 0, judged = 0;
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

                int at = (y * size.Width) + x;
                int best = Sound;
                float most = scores[(Sound * plane) + at];
                for (int c = Speck; c < Classes; c++)
                {
                    float score = scores[(c * plane) + at];
                    if (score > most)
                    {
                        (best, most) = (c, score);
                    }
                }

                to[x] = CodeOfClass[best];
                if (best == Unassessed)
                {
                    continue;
                }

                // Scores are logarithms of odds: three to one either way is what counts as sure.
                float hurt = MathF.Max(scores[(Speck * plane) + at], MathF.Max(scores[(Yellowed * plane) + at], scores[(Browned * plane) + at]));
                float lead = hurt - scores[(Sound * plane) + at];
                judged++;
                hurtLow += lead > SureLead ? 1 : 0;
                hurtHigh += lead > -SureLead ? 1 : 0;
                sums.Speck += best == Speck ? 1 : 0;
                sums.Yellow += best == Yellowed ? 1 : 0;
                sums.Brown += best == Browned ? 1 : 0;
            }
        }

        if (judged > 0)
        {
            double damage = (sums.Speck + sums.Yellow + sums.Brown) / judged;
            double specks = sums.Speck / judged;
            double yellow = YellowError * sums.Yellow / judged;
            sums.Low = damage - Math.Sqrt(Square(damage - (hurtLow / judged)) + Square(SpecksTooMany * specks) + Square(yellow));
            sums.High = damage + Math.Sqrt(Square((hurtHigh / judged) - damage) + Square(SpecksMissed * specks) + Square(yellow));
        }

        return sums;
    }

    private static double Square(double x) => x * x;

    // A centre on brown or unjudged tissue is no speck.
    private static void Drop(List<SpeckMark> specks, Mat codes)
        => specks.RemoveAll(s => codes.AsRow<byte>((int)Math.Round(s.Y))[(int)Math.Round(s.X)] is (byte)MaskCode.Browned or (byte)MaskCode.Unassessed);

    // Specks that cover more than one and a half times the area of their own discs have run together.
    private static bool Merged(Mat codes, List<SpeckMark> specks)
    {
        using Mat speck = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        double covered = Cv2.CountNonZero(speck);
        double discs = specks.Sum(s => Math.PI * s.DiameterPx * s.DiameterPx / 4);
        return specks.Count > 0 && covered > 50 && covered > 1.5 * discs;
    }

    private struct Sums
    {
        public double Low;
        public double High;
        public double Speck;
        public double Yellow;
        public double Brown;
    }
}
