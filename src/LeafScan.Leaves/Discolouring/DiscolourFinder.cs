using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Tissue;
using OpenCvSharp;

namespace LeafScan.Leaves.Discolouring;

/// <summary>
/// Finds diffuse yellowing and dead brown tissue against the leaf's own sound colour. Both are smooth things: the maps are
/// smoothed so far that specks and veins drop out before a threshold is set.
/// </summary>
internal static class DiscolourFinder
{
    private const double SoundBelow = 0.25;
    private const double MostSoundInGaps = 0.06;
    private const int GapWindowPx = 17;
    private const double LeastEvenShare = 0.68;

    /// <summary>Yellowed tissue, 255 or 0.</summary>
    /// <param name="strength">Bleach strength of the patch.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="threshold">Strength at the contour, 0..1.</param>
    /// <param name="mergedSpecks">When given, receives 255 where a patch turned out to be a dense field of specks.</param>
    public static Mat Yellowed(Mat strength, Mat mask, double threshold, Mat? mergedSpecks = null)
    {
        // A median over about 1.5 % of the leaf's length: wider than a speck, narrower than a yellow patch.
        double shrink = Math.Min(1.0, 360.0 / Math.Max(mask.Cols, mask.Rows));
        Size size = new(Math.Max(1, (int)(mask.Cols * shrink)), Math.Max(1, (int)(mask.Rows * shrink)));
        using Mat small = new();
        using Mat smallMask = new();
        Cv2.Resize(mask, smallMask, size, 0, 0, InterpolationFlags.Area);
        using Mat masked = new();
        strength.CopyTo(masked, mask);
        Cv2.Resize(masked, small, size, 0, 0, InterpolationFlags.Area);
        using Mat weight = MaskedBlur.Weights(smallMask);
        using Mat density = new();
        Cv2.Add(weight, Scalar.All(1e-3), density);
        Cv2.Divide(small, density, small);

        // OpenCV's wide median takes bytes only; -0.5..1.5 spread over 0..255 keeps steps under one percent.
        using Mat bytes = new();
        small.ConvertTo(bytes, MatType.CV_8UC1, 127.5, 63.75);
        using Mat middle = new();
        Cv2.MedianBlur(bytes, middle, 9);
        using Mat smooth = new();
        middle.ConvertTo(smooth, MatType.CV_32FC1, 1 / 127.5, -0.5);
        using Mat soft = MaskedBlur.Gaussian(smooth, weight, 1.5);
        using Mat full = new();
        Cv2.Resize(soft, full, mask.Size(), 0, 0, InterpolationFlags.Linear);
        Mat yellowed = new();
        Cv2.Compare(full, Scalar.All(threshold), yellowed, CmpTypes.GT);
        Cv2.BitwiseAnd(yellowed, mask, yellowed);
        using Mat even = Even(strength, mask);
        DropUneven(yellowed, even, mergedSpecks);
        return yellowed;
    }

    // A dense field of specks looks yellow from afar but keeps sound tissue in its gaps; diffuse yellowing keeps none.
    private static Mat Even(Mat strength, Mat mask)
    {
        using Mat soundBit = new();
        Cv2.Compare(strength, Scalar.All(SoundBelow), soundBit, CmpTypes.LT);
        Cv2.BitwiseAnd(soundBit, mask, soundBit);
        Size window = new(GapWindowPx, GapWindowPx);
        using Mat sound = new();
        using Mat leaf = new();
        Cv2.BoxFilter(soundBit, sound, MatType.CV_32FC1, window);
        Cv2.BoxFilter(mask, leaf, MatType.CV_32FC1, window);
        using Mat limit = new();
        leaf.ConvertTo(limit, MatType.CV_32FC1, MostSoundInGaps);
        Mat even = new();
        Cv2.Compare(sound, limit, even, CmpTypes.LE);
        return even;
    }

    // Judged patch by patch: at the rim of a patch the window always sees sound tissue.
    private static void DropUneven(Mat yellowed, Mat even, Mat? dropped)
    {
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(yellowed, labels, stats, centres);
        int[] all = new int[count];
        int[] kept = new int[count];
        int rows = labels.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> row = labels.AsRow<int>(y);
            ReadOnlySpan<byte> e = even.AsRow<byte>(y);
            for (int x = 0; x < row.Length; x++)
            {
                all[row[x]]++;
                kept[row[x]] += e[x] != 0 ? 1 : 0;
            }
        }

        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> row = labels.AsRow<int>(y);
            Span<byte> to = yellowed.AsRow<byte>(y);
            Span<byte> other = dropped is null ? default : dropped.AsRow<byte>(y);
            for (int x = 0; x < row.Length; x++)
            {
                if (row[x] != 0 && kept[row[x]] < all[row[x]] * LeastEvenShare)
                {
                    to[x] = 0;
                    if (!other.IsEmpty)
                    {
                        other[x] = 255;
                    }
                }
            }
        }
    }

    /// <summary>Dead brown tissue, 255 or 0.</summary>
    public static Mat Browned(ColourRatios ratios, SoundColour sound, Mat mask, TissueOptions options)
    {
        using Mat weight = MaskedBlur.Weights(mask);
        using Mat smooth = MaskedBlur.Gaussian(ratios.RedToGreen, weight, 1.5);
        Mat brown = new(mask.Size(), MatType.CV_8UC1);
        int rows = brown.Rows;
        float[] own = new float[mask.Cols];
        float[] ownBlue = new float[mask.Cols];
        for (int y = 0; y < rows; y++)
        {
            sound.Row(y, own, ownBlue);
            ReadOnlySpan<float> rg = smooth.AsRow<float>(y);
            ReadOnlySpan<byte> inside = mask.AsRow<byte>(y);
            Span<byte> to = brown.AsRow<byte>(y);
            for (int x = 0; x < to.Length; x++)
            {
                bool dead = inside[x] != 0 && rg[x] > options.BrownRedToGreen && rg[x] > own[x] + options.BrownAboveOwn;
                to[x] = dead ? (byte)255 : (byte)0;
            }
        }

        // Anything smaller than a few pixels across is noise or the rim of a speck.
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        Cv2.MorphologyEx(brown, brown, MorphTypes.Open, kernel);
        return brown;
    }
}
