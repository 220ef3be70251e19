using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Learned;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// The main leaf of an ordinary photo without a sheet: what the outline network sees, or, where its file is missing or it
/// sees nothing like a leaf, a graph cut (C. Rother, V. Kolmogorov, A. Blake, ACM Transactions on Graphics 23(3), 2004) from
/// seeds that are sharp, leaf-coloured and near the middle.
/// </summary>
internal static class FieldSegmentation
{
    private const int WorkLongSidePx = 288;

    /// <summary>Least share of leaf-coloured pixels in a leaf: real ones had 0.6 and more, soil and noise at most 0.5.</summary>
    private const double LeastLeafColour = 0.55;

    private const double LeastShare = 0.01;

    private const double MostShare = 0.94;

    // The file holds two networks and gives their mean: what one of them is sure of and the other half, counts. From six settings tried
    // on 39 rendered scenes and the implants in the field (decision 046).
    private const double LeafChance = 0.4;

    /// <summary>Share of what stands out from a sheet that the network must leave out to be asked.</summary>
    private const double LeastDifference = 0.3;

    /// <summary>Leaf colour above which that share is leaf after all.</summary>
    private const double MostRestColour = 0.3;

    /// <summary>Mean chance from which the network is believed whatever the colour: blue, brown and badly lit leaves. The mean of two is lower than that of one.</summary>
    private const double SureChance = 0.84;

    /// <summary>Least area of a further piece against the largest: leaflets of one leaf, not crumbs.</summary>
    private const double LeastPiece = 0.1;

    /// <summary>255 leaf, 0 rest, size of <paramref name="bgr"/>; all 0 when there is nothing like a leaf.</summary>
    /// <param name="bgr">Small copy, 8-bit B, G, R.</param>
    /// <param name="network">The outline network, or null.</param>
    public static Mat Segment(Mat bgr, Network? network)
    {
        if (network is not null)
        {
            Mat seen = Seen(bgr, network);
            if (Cv2.CountNonZero(seen) > 0)
            {
                return seen;
            }

            seen.Dispose();
        }

        double scale = Math.Min(1, WorkLongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat work = new();
        Cv2.Resize(bgr, work, default, scale, scale, InterpolationFlags.Area);
        using Mat sharp = FieldSeeds.Sharpness(bgr, work.Size());
        using ColourPlanes planes = ColourPlanes.Of(work);
        using Mat likeness = LeafColour.Of(planes);
        Mat mask = new(bgr.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat central = FieldSeeds.Central(likeness, sharp, out int leafPixels);
        if (leafPixels < work.Cols * work.Rows / 200)
        {
            return mask;
        }

        Mat leaf = CutOut(work, central, planes);
        if (!IsLeaf(leaf, likeness))
        {
            leaf.Dispose();
            using Mat byColour = FieldSeeds.ByColour(likeness);
            leaf = CutOut(work, byColour, planes);
        }

        using (leaf)
        {
            if (IsLeaf(leaf, likeness))
            {
                Cv2.Resize(leaf, mask, bgr.Size(), 0, 0, InterpolationFlags.Linear);
                Cv2.Threshold(mask, mask, 127, 255, ThresholdTypes.Binary);
            }
        }

        return mask;
    }

    /// <summary>
    /// The leaf on what looked like a sheet, where most of what stood out from it has no leaf colour: a hand that holds the
    /// leaf, things beside it. All 0 when the network sees about the same or no leaf; then the sheet's own way stands.
    /// </summary>
    public static Mat Instead(Mat bgr, Mat onSheet, ColourPlanes planes, Network network)
    {
        using Mat likeness = LeafColour.Of(planes);
        Mat seen = Cv2.Mean(likeness, onSheet).Val0 < LeastLeafColour ? Seen(bgr, network) : new Mat(onSheet.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat rest = new();
        Cv2.BitwiseNot(seen, rest);
        Cv2.BitwiseAnd(rest, onSheet, rest);
        if (Cv2.CountNonZero(rest) < LeastDifference * Cv2.CountNonZero(onSheet) || Cv2.Mean(likeness, rest).Val0 > MostRestColour)
        {
            seen.SetTo(Scalar.All(0));
        }

        return seen;
    }

    /// <summary>What the network sees, as far as it looks like a leaf (else all 0); the leaflets of one compound leaf stay together.</summary>
    /// <param name="bgr">Small copy, 8-bit B, G, R.</param>
    /// <param name="network">The outline network.</param>
    public static Mat Seen(Mat bgr, Network network)
    {
        using Mat chance = LearnedOutline.Chance(bgr, network, bgr.Size());
        Mat mask = new();
        Cv2.Compare(chance, new Scalar(LeafChance), mask, CmpTypes.GT);
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        Cv2.MorphologyEx(mask, mask, MorphTypes.Open, disc);
        KeepLarge(mask);
        using ColourPlanes planes = ColourPlanes.Of(bgr);
        using Mat likeness = LeafColour.Of(planes);
        if (!IsLeaf(mask, likeness) && !(ShareIsFit(mask) && Cv2.Mean(chance, mask).Val0 > SureChance))
        {
            mask.SetTo(Scalar.All(0));
        }

        return mask;
    }

    // Pieces much smaller than the largest are crumbs or leaves that nobody aimed at.
    private static void KeepLarge(Mat mask)
    {
        using Mat labels = new();
        using Mat statistics = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(mask, labels, statistics, centroids, PixelConnectivity.Connectivity4);
        int[] area = [.. Enumerable.Range(0, count).Select(i => i == 0 ? 0 : statistics.AsRow<int>(i)[(int)ConnectedComponentsTypes.Area])];
        double least = LeastPiece * area.Max();
        using Mat piece = new();
        for (int i = 1; i < count; i++)
        {
            if (area[i] < least)
            {
                Cv2.InRange(labels, new Scalar(i), new Scalar(i), piece);
                mask.SetTo(Scalar.All(0), piece);
            }
        }
    }

    private static Mat CutOut(Mat work, Mat seeds, ColourPlanes planes)
    {
        using Mat one = new(seeds.Size(), MatType.CV_8UC1, Scalar.All(1));
        using Mat leaf = new();
        Cv2.BitwiseAnd(seeds, one, leaf);
        int seeded = Cv2.CountNonZero(leaf);
        if (seeded > 0 && seeded < seeds.Cols * seeds.Rows)
        {
            // A fixed seed: the same photo gives the same outline.
            Cv2.SetTheRNG(1);
            using Mat background = new();
            using Mat foreground = new();
            Cv2.GrabCut(work, seeds, default, background, foreground, 3, GrabCutModes.InitWithMask);
            Cv2.BitwiseAnd(seeds, one, leaf);
        }

        Mat mask = new();
        leaf.ConvertTo(mask, MatType.CV_8UC1, 255);
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        Cv2.MorphologyEx(mask, mask, MorphTypes.Open, disc);
        KeepCentral(mask);
        FieldHoles.Fill(mask, planes);
        NeighbourParting.CutOff(mask);
        return mask;
    }

    private static bool IsLeaf(Mat mask, Mat likeness) => ShareIsFit(mask) && Cv2.Mean(likeness, mask).Val0 > LeastLeafColour;

    private static bool ShareIsFit(Mat mask) => Cv2.CountNonZero(mask) / (double)(mask.Cols * mask.Rows) is > LeastShare and < MostShare;

    private static void KeepCentral(Mat mask)
    {
        using Mat labels = new();
        int count = Cv2.ConnectedComponents(mask, labels, PixelConnectivity.Connectivity4);
        double[] weight = new double[count];
        int rows = mask.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> label = labels.AsRow<int>(y);
            double v = ((2.0 * y) / rows) - 1;
            for (int x = 0; x < label.Length; x++)
            {
                if (label[x] != 0)
                {
                    double u = ((2.0 * x) / label.Length) - 1;
                    weight[label[x]] += Math.Exp(-((u * u) + (v * v)) / 0.3);
                }
            }
        }

        int best = Math.Max(1, Array.IndexOf(weight, weight.Max()));
        Cv2.InRange(labels, new Scalar(best), new Scalar(best), mask);
    }
}
