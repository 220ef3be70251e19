using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// The main leaf of an ordinary photo without a sheet: what is sharp, leaf-coloured and near the middle seeds a graph cut
/// (C. Rother, V. Kolmogorov, A. Blake, ACM Transactions on Graphics 23(3), 2004); the piece that weighs most near the middle
/// is the leaf.
/// </summary>
internal static class FieldSegmentation
{
    private const int WorkLongSidePx = 288;

    /// <summary>Least share of leaf-coloured pixels in a leaf: real ones had 0.6 and more, soil and noise at most 0.5.</summary>
    private const double LeastLeafColour = 0.55;

    private const double LeastShare = 0.01;

    private const double MostShare = 0.94;

    /// <summary>255 leaf, 0 rest, size of <paramref name="bgr"/>; all 0 when there is nothing like a leaf.</summary>
    /// <param name="bgr">Small copy, 8-bit B, G, R.</param>
    public static Mat Segment(Mat bgr)
    {
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

    private static bool IsLeaf(Mat mask, Mat likeness)
    {
        double share = Cv2.CountNonZero(mask) / (double)(mask.Cols * mask.Rows);
        return share is > LeastShare and < MostShare && Cv2.Mean(likeness, mask).Val0 > LeastLeafColour;
    }

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
