using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>
/// What is the same for all candidates of a leaf, and where each stands among them: a leaf whose candidates are all weak and
/// alike has natural marks, not specks.
/// </summary>
internal static class LeafValues
{
    private const float UsualScore = 0.35f;

    /// <summary>Fills in the leaf's values; everything of the candidates' own must be there.</summary>
    /// <param name="all">The candidates.</param>
    /// <param name="patch">The leaf.</param>
    /// <param name="mean">Its mean L*, a*, b*.</param>
    /// <param name="codes">Mask codes from the network.</param>
    public static void Read(List<SpeckCandidate> all, LeafPatch patch, Scalar mean, Mat codes)
    {
        if (all.Count == 0)
        {
            return;
        }

        float[] network = Sorted(all.Where(c => c.ByNetwork), SpeckFeature.CentreScore);
        float[] scores = Sorted(all, SpeckFeature.CentreScore);
        float[] contrast = Sorted(all, SpeckFeature.LightnessContrast);
        float[] signal = Sorted(all, SpeckFeature.SignalToNoise);
        float[] diameter = Sorted(all, SpeckFeature.Diameter);
        double area = Math.Max(1, patch.AreaPx);
        (SpeckFeature, double)[] same =
        [
            (SpeckFeature.LeafSide, Math.Sqrt(area)),
            (SpeckFeature.LeafDensity, all.Count / area * 10_000),
            (SpeckFeature.LeafSpeckShare, Count(codes, MaskCode.Speck) / area),
            (SpeckFeature.LeafYellowShare, Count(codes, MaskCode.Yellowed) / area),
            (SpeckFeature.LeafScoreMedian, At(network, 0.5)),
            (SpeckFeature.LeafScoreHigh, At(network, 0.9)),
            (SpeckFeature.LeafScoreShare, scores.Count(s => s >= UsualScore) / (double)scores.Length),
            (SpeckFeature.LeafContrastMedian, At(contrast, 0.5)),
            (SpeckFeature.LeafContrastHigh, At(contrast, 0.9)),
            (SpeckFeature.LeafStrengthMedian, At(Sorted(all, SpeckFeature.StrengthContrast), 0.5)),
            (SpeckFeature.LeafGreenToRed, At(Sorted(all, SpeckFeature.GreenToRed), 0.5)),
            (SpeckFeature.LeafBlueToRed, At(Sorted(all, SpeckFeature.BlueToRed), 0.5)),
            (SpeckFeature.LeafSignalMedian, At(signal, 0.5)),
            (SpeckFeature.LeafSignalHigh, At(signal, 0.9)),
            (SpeckFeature.LeafBothShare, all.Count(c => c.ByNetwork && c.ByColour) / (double)all.Count),
            (SpeckFeature.LeafDiameterMedian, At(diameter, 0.5)),
            (SpeckFeature.LeafLightness, mean.Val0),
            (SpeckFeature.LeafRed, mean.Val1),
            (SpeckFeature.LeafYellow, mean.Val2),
            (SpeckFeature.LeafTexture, At(Sorted(all, SpeckFeature.RingSpread), 0.5)),
        ];
        float usualContrast = Math.Max(0.5f, At(contrast, 0.5));
        float usualDiameter = Math.Max(1, At(diameter, 0.5));
        foreach (SpeckCandidate c in all)
        {
            foreach ((SpeckFeature feature, double value) in same)
            {
                c[feature] = (float)value;
            }

            int below = Array.BinarySearch(scores, c[SpeckFeature.CentreScore]);
            c[SpeckFeature.ScoreRank] = (below < 0 ? ~below : below) / (float)scores.Length;
            c[SpeckFeature.ContrastToMedian] = c[SpeckFeature.LightnessContrast] / usualContrast;
            c[SpeckFeature.DiameterToMedian] = c[SpeckFeature.Diameter] / usualDiameter;
        }
    }

    private static float[] Sorted(IEnumerable<SpeckCandidate> all, SpeckFeature feature) => [.. all.Select(c => c[feature]).Order()];

    private static float At(float[] sorted, double share) => sorted.Length == 0 ? 0 : sorted[(int)((sorted.Length - 1) * share)];

    private static double Count(Mat codes, MaskCode code)
    {
        using Mat hit = new();
        Cv2.InRange(codes, Scalar.All((int)code), Scalar.All((int)code), hit);
        return Cv2.CountNonZero(hit);
    }
}
