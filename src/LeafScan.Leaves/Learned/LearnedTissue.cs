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
    private const int Background = 0;
    private const int Sound = 1;
    private const int Speck = 2;
    private const int Yellowed = 3;
    private const int Browned = 4;
    private const int Unassessed = 5;
    private const int Classes = 6;

    private static readonly byte[] CodeOfClass =
    [
        (byte)MaskCode.Sound, (byte)MaskCode.Sound, (byte)MaskCode.Speck, (byte)MaskCode.Yellowed, (byte)MaskCode.Browned, (byte)MaskCode.Unassessed,
    ];

    /// <summary>Reads the tissue of one leaf.</summary>
    public static TissueMap Read(LeafPatch patch, Network network, TissueOptions options)
    {
        using Mat prior = new();
        Cv2.GaussianBlur(patch.Mask, prior, default, 1.2);
        using Planes planes = Planes.Of(patch.Bgr, prior);
        Mat codes = new(patch.Mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        List<SpeckMark> specks = [];
        Sums sums = default;
        network.Run(planes.Values, planes.Channels, planes.Size, outputs =>
        {
            sums = Classify(outputs[0].Span, planes.Size, patch.Mask, codes);
            specks = SpeckPeaks.Find(outputs[1].Span, outputs[2].Span, planes.Size, patch.Mask, options.SpeckCentreScore);
        });
        Drop(specks, codes);
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

                float sound = scores[(Sound * plane) + at] + scores[(Background * plane) + at];
                float hurt = scores[(Speck * plane) + at] + scores[(Yellowed * plane) + at] + scores[(Browned * plane) + at];
                float share = hurt / Math.Max(hurt + sound, 1e-6f);
                judged++;
                hurtLow += share > 0.75f ? 1 : 0;
                hurtHigh += share > 0.25f ? 1 : 0;
                sums.Speck += best == Speck ? 1 : 0;
            }
        }

        sums.Low = judged > 0 ? hurtLow / judged : 0;
        sums.High = judged > 0 ? hurtHigh / judged : 0;
        return sums;
    }

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
        return covered > 50 && covered > 1.5 * discs;
    }

    private struct Sums
    {
        public double Low;
        public double High;
        public double Speck;
    }
}
