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

    // ln 3
    private const float SureLead = 1.0986f;

    private static readonly byte[] CodeOfClass =
    [
        (byte)MaskCode.Sound, (byte)MaskCode.Sound, (byte)MaskCode.Speck, (byte)MaskCode.Yellowed, (byte)MaskCode.Browned, (byte)MaskCode.Unassessed,
    ];

    /// <summary>Reads the tissue of one leaf, and which pixels are leaf at all.</summary>
    /// <param name="bgr">The leaf with some room about it, 8-bit B, G, R, at the scale of judging.</param>
    /// <param name="prior">Chance of this leaf times 255, same size.</param>
    /// <param name="network">The tissue network.</param>
    /// <param name="options">Thresholds.</param>
    /// <returns>The tissue, and a mask with 255 on the leaf that is there; the caller owns both.</returns>
    public static (TissueMap Tissue, Mat There) Read(Mat bgr, Mat prior, Network network, TissueOptions options)
    {
        using Planes planes = Planes.Of(bgr, prior);
        Mat there = new(bgr.Size(), MatType.CV_8UC1, Scalar.All(0));
        Mat codes = new(bgr.Size(), MatType.CV_8UC1, Scalar.All(0));
        List<SpeckMark> specks = [];
        Sums sums = default;
        network.Run(planes.Values, planes.Channels, planes.Size, outputs =>
        {
            MarkLeaf(outputs[0].Span, planes.Size, there);
            KeepOneLeaf(there, prior);
            sums = Classify(outputs[0].Span, planes.Size, there, codes);
            specks = SpeckPeaks.Find(outputs[1].Span, outputs[2].Span, planes.Size, there, options.SpeckCentreScore);
        });
        PaperHoles.Open(bgr, there, codes);
        Drop(specks, codes);
        List<string> flags = [];
        if (sums.Speck > 0 && Merged(codes, specks))
        {
            flags.Add(Flag.CountIsLowerBound.Name);
        }

        return (new TissueMap(codes, specks, sums.Low, sums.High, flags), there);
    }

    // Leaf is where background is not the likeliest class.
    private static void MarkLeaf(ReadOnlySpan<float> scores, Size size, Mat there)
    {
        int plane = size.Width * size.Height;
        int rows = there.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> to = there.AsRow<byte>(y);
            for (int x = 0; x < to.Length; x++)
            {
                int at = (y * size.Width) + x;
                float background = scores[(Background * plane) + at];
                bool leaf = false;
                for (int c = Sound; c < Classes && !leaf; c++)
                {
                    leaf = scores[(c * plane) + at] > background;
                }

                to[x] = leaf ? (byte)255 : (byte)0;
            }
        }
    }

    // The largest part, and further parts (a leaf bitten through, a fold) that lie where the outline network saw this leaf.
    private static void KeepOneLeaf(Mat there, Mat prior)
    {
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(there, labels, stats, centres, PixelConnectivity.Connectivity8);
        if (count <= 2)
        {
            return;
        }

        int[] area = new int[count];
        int[] expected = new int[count];
        int rows = there.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> row = labels.AsRow<int>(y);
            ReadOnlySpan<byte> chance = prior.AsRow<byte>(y);
            for (int x = 0; x < row.Length; x++)
            {
                area[row[x]]++;
                expected[row[x]] += chance[x] > 127 ? 1 : 0;
            }
        }

        int main = 1;
        int total = 0;
        for (int i = 1; i < count; i++)
        {
            main = area[i] > area[main] ? i : main;
            total += area[i];
        }

        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> row = labels.AsRow<int>(y);
            Span<byte> to = there.AsRow<byte>(y);
            for (int x = 0; x < row.Length; x++)
            {
                int i = row[x];
                if (i != 0 && i != main && (expected[i] < 0.6 * area[i] || area[i] < 0.01 * total))
                {
                    to[x] = 0;
                }
            }
        }
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
