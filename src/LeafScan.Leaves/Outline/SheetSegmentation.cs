using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>Leaves on a plain sheet: what differs from the sheet in colour, shadow and holes left out.</summary>
internal static class SheetSegmentation
{
    /// <summary>255 leaf, 0 sheet, 8-bit, size of the small copy.</summary>
    /// <param name="paper">The sheet.</param>
    public static Mat Segment(PaperModel paper)
    {
        using Mat strangeness = Strangeness(paper);
        double threshold = Threshold(strangeness, paper.Spread);
        Mat mask = new();
        Cv2.InRange(strangeness, new Scalar(threshold), new Scalar(1000), mask);
        using Mat small = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(3, 3));
        Cv2.MorphologyEx(mask, mask, MorphTypes.Open, small);
        Cv2.MorphologyEx(mask, mask, MorphTypes.Close, small);
        EnclosedRegions.Fill(mask, paper, threshold);
        DropFaint(mask, strangeness, paper.LevelOff);
        return mask;
    }

    /// <summary>
    /// A patch far fainter than the strongest large one is a brownish shadow or a stain, a small and very dark one a scrap of
    /// deep shadow. A single leaf is never dropped here.
    /// </summary>
    private static void DropFaint(Mat mask, Mat strangeness, Mat levelOff)
    {
        const double LeastOfStrongest = 0.4;
        const double ScrapOfLargest = 0.06;
        const double DeepShadow = -1.4;
        using Mat labels = new();
        using Mat stats = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(mask, labels, stats, centroids, PixelConnectivity.Connectivity8);
        double[] sum = new double[count];
        int rows = mask.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> label = labels.AsRow<int>(y);
            ReadOnlySpan<float> s = strangeness.AsRow<float>(y);
            for (int x = 0; x < label.Length; x++)
            {
                sum[label[x]] += s[x];
            }
        }

        int largest = 0;
        double strongest = 0;
        double large = 0.01 * mask.Cols * rows;
        for (int i = 1; i < count; i++)
        {
            int area = stats.AsRow<int>(i)[4];
            sum[i] /= area;
            largest = Math.Max(largest, area);
            strongest = area > large ? Math.Max(strongest, sum[i]) : strongest;
        }

        using Mat faint = new();
        for (int i = 1; i < count; i++)
        {
            ReadOnlySpan<int> s = stats.AsRow<int>(i);
            Rect box = new(s[0], s[1], s[2], s[3]);
            using Mat labelled = new(labels, box);
            using Mat place = new(mask, box);
            Cv2.InRange(labelled, new Scalar(i), new Scalar(i), faint);
            bool small = s[4] < ScrapOfLargest * largest;
            using Mat level = new(levelOff, box);
            if (sum[i] < LeastOfStrongest * strongest || (small && Cv2.Mean(level, faint).Val0 < DeepShadow))
            {
                place.SetTo(Scalar.All(0), faint);
            }
        }
    }

    /// <summary>
    /// How far a pixel's colour lies from the sheet's, ln units. Shadow on the sheet is lit by the sky and turns a little
    /// blue as it darkens; a shift that way is taken off.
    /// </summary>
    private static Mat Strangeness(PaperModel paper)
    {
        const float ShadowRed = -0.12f;
        const float ShadowBlue = 0.16f;
        const float DarkTolerance = 0.05f;
        const float ShadowSquared = (ShadowRed * ShadowRed) + (ShadowBlue * ShadowBlue);
        Mat strange = new(paper.LevelOff.Size(), MatType.CV_32FC1);
        Bands.Run(paper.LevelOff.Rows, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                ReadOnlySpan<float> rg = paper.RedGreenOff.AsRow<float>(y);
                ReadOnlySpan<float> bg = paper.BlueGreenOff.AsRow<float>(y);
                ReadOnlySpan<float> level = paper.LevelOff.AsRow<float>(y);
                Span<float> to = strange.AsRow<float>(y);
                for (int x = 0; x < to.Length; x++)
                {
                    float r = rg[x];
                    float b = bg[x];
                    float most = Math.Clamp(-level[x], 0f, 2f);
                    float along = Math.Clamp(((r * ShadowRed) + (b * ShadowBlue)) / ShadowSquared, 0f, most);
                    r -= along * ShadowRed;
                    b -= along * ShadowBlue;

                    // Deep shadow is noise and stray light: its ratios say less the darker it is.
                    float trust = 1 / (1 + (DarkTolerance * MathF.Exp(-level[x])));
                    to[x] = MathF.Sqrt((r * r) + (b * b * 0.6f)) * trust;
                }
            }
        });

        return strange;
    }

    // Half way to the leaf's usual distance, but never inside the sheet's own scatter.
    private static double Threshold(Mat strangeness, double spread)
    {
        const int Cells = 200;
        const float Top = 2f;
        int[] counts = new int[Cells];
        int far = 0;
        double least = Math.Max(0.09, 2.5 * spread);
        int rows = strangeness.Rows;
        for (int y = 0; y < rows; y++)
        {
            foreach (float s in strangeness.AsRow<float>(y))
            {
                if (s > least)
                {
                    counts[Math.Min(Cells - 1, (int)(s / Top * Cells))]++;
                    far++;
                }
            }
        }

        int seen = 0;
        int at = 0;
        while (at < Cells - 1 && (seen += counts[at]) < far / 2)
        {
            at++;
        }

        double leaf = (at + 0.5) * Top / Cells;
        return Math.Clamp(0.4 * leaf, least, Math.Max(least, 0.28));
    }
}
