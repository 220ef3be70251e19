using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>
/// Parts a plant's foliage from the gaps in its crown and finds loose tufts beside it: each pixel by whether its colour is
/// likelier the plant's or that of the surroundings at its height.
/// </summary>
internal static class CrownFoliage
{
    private const int Rounds = 2;

    // Leanings before a pixel is looked at, ln odds: inside the rough outline, just outside, and further off for each root of the area.
    private const float LeaningInside = 0.5f;
    private const float LeaningOutside = -1;
    private const float LeaningAway = -10;

    // Farther from the rough outline there is no foliage, roots of its area.
    private const double Farthest = 0.125;

    // No single pixel says more than this, ln odds; what its neighbours say is taken in over this reach, pixels.
    private const float Most = 4;
    private const double ReachPx = 1.2;

    private const double LeastPiece = 0.0008;

    /// <summary>255 on foliage.</summary>
    /// <param name="region">The plant roughly cut out, 255 inside.</param>
    /// <param name="planes">Colour.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static Mat Of(Mat region, ColourPlanes planes, CancellationToken cancel)
    {
        using Mat red = Calm(planes.RedToGreen);
        using Mat blue = Calm(planes.BlueToGreen);
        using Mat level = Calm(planes.Level);
        using Mat rough = Envelope.Full(region, CrownMeter.Smoothing, CrownMeter.WidestNotch);
        using Mat away = Away(rough, Math.Sqrt(Math.Max(1, Cv2.CountNonZero(region))));
        Rect box = Cv2.BoundingRect(region);
        NearBackdrop backdrop = new(red, blue, level, away, Farthest, (box.Top - (box.Height / 20), box.Bottom + (box.Height / 20)));
        Mat foliage = new();
        Cv2.BitwiseAnd(region, rough, foliage);
        for (int round = 0; round < Rounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            float[] own = Own(red, blue, level, foliage, away);
            using Mat odds = Odds(red, blue, level, away, own, backdrop);
            Cv2.GaussianBlur(odds, odds, default, ReachPx);
            using Mat leaning = Leaning(away);
            Cv2.Add(odds, leaning, odds);
            Cv2.Compare(odds, new Scalar(0), foliage, CmpTypes.GT);
        }

        Pieces.KeepLarge(foliage, LeastPiece);
        return foliage;
    }

    private static Mat Calm(Mat plane)
    {
        Mat calm = new();
        Cv2.GaussianBlur(plane, calm, default, 1);
        return calm;
    }

    private static Mat Away(Mat rough, double root)
    {
        using Mat outside = new();
        Cv2.BitwiseNot(rough, outside);
        Mat away = new();
        Cv2.DistanceTransform(outside, away, DistanceTypes.L2, DistanceTransformMasks.Mask5);
        away.ConvertTo(away, MatType.CV_32FC1, 1 / root);
        return away;
    }

    private static float[] Own(Mat red, Mat blue, Mat level, Mat foliage, Mat away)
    {
        ColourCounts counts = new();
        int rowCount = red.Rows;
        for (int y = 0; y < rowCount; y++)
        {
            ReadOnlySpan<float> r = red.AsRow<float>(y);
            ReadOnlySpan<float> b = blue.AsRow<float>(y);
            ReadOnlySpan<float> l = level.AsRow<float>(y);
            ReadOnlySpan<byte> inside = foliage.AsRow<byte>(y);
            ReadOnlySpan<float> off = away.AsRow<float>(y);
            for (int x = 0; x < r.Length; x++)
            {
                if (inside[x] != 0 && off[x] <= 0)
                {
                    counts.Add(ColourCounts.Cell(r[x], b[x], l[x]), 1);
                }
            }
        }

        return counts.Logs();
    }

    private static Mat Odds(Mat red, Mat blue, Mat level, Mat away, float[] own, NearBackdrop backdrop)
    {
        Mat odds = new(red.Size(), MatType.CV_32FC1, Scalar.All(-Most));
        int rowCount = red.Rows;
        for (int y = 0; y < rowCount; y++)
        {
            ReadOnlySpan<float> r = red.AsRow<float>(y);
            ReadOnlySpan<float> b = blue.AsRow<float>(y);
            ReadOnlySpan<float> l = level.AsRow<float>(y);
            ReadOnlySpan<float> off = away.AsRow<float>(y);
            Span<float> to = odds.AsRow<float>(y);
            IReadOnlyList<(float Share, float[] Open, float[] Inside)> bands = backdrop.Row(y);
            for (int x = 0; x < to.Length; x++)
            {
                if (off[x] > Farthest)
                {
                    continue;
                }

                int cell = ColourCounts.Cell(r[x], b[x], l[x]);
                float behind = bands.Count == 0 ? own[cell] : 0;
                for (int i = 0; i < bands.Count; i++)
                {
                    behind += bands[i].Share * (off[x] <= 0 ? bands[i].Inside[cell] : bands[i].Open[cell]);
                }

                to[x] = Math.Clamp(own[cell] - behind, -Most, Most);
            }
        }

        return odds;
    }

    private static Mat Leaning(Mat away)
    {
        Mat leaning = new();
        away.ConvertTo(leaning, MatType.CV_32FC1, LeaningAway, LeaningOutside);
        using Mat inside = new();
        Cv2.Compare(away, new Scalar(0), inside, CmpTypes.LE);
        leaning.SetTo(Scalar.All(LeaningInside), inside);
        using Mat beyond = new();
        Cv2.Compare(away, new Scalar(Farthest), beyond, CmpTypes.GT);
        leaning.SetTo(Scalar.All(-100), beyond);
        return leaning;
    }
}
