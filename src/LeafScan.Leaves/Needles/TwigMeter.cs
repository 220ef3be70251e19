using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>Measures a close-up of a conifer's twig: how much of its foliage is stippled, yellowed, browned.</summary>
internal static class TwigMeter
{
    // How much yellower fresh needles are at least, ln(B/G): found on renders with ordinary seeds.
    private const double FreshBy = 0.11;

    // Where the cuts are less alike, no edge is sure enough for the width of a needle.
    private const double LeastOverlapForNeedles = 0.8;

    /// <summary>Measures.</summary>
    /// <param name="bgr">Upright photo, 8-bit B, G, R; not changed.</param>
    /// <param name="options">How.</param>
    /// <param name="cancel">Stops between steps.</param>
    /// <param name="healthy">Sound colour from a healthy photo; null for the twig's own.</param>
    public static KindMeasurement Measure(Mat bgr, TwigOptions options, CancellationToken cancel, HealthyColour? healthy = null)
    {
        if (Math.Min(bgr.Cols, bgr.Rows) < 200)
        {
            return KindMeasurement.None("The photo is too small to measure a twig in it.", "Use the photo as the phone took it.");
        }

        double scale = Math.Min(1, options.LongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat work = new();
        AreaShrink.Into(bgr, work, scale);
        using ColourPlanes planes = ColourPlanes.Of(work);
        using PaperModel? paper = PaperModel.Find(planes);
        cancel.ThrowIfCancellationRequested();
        using TwigOpinion opinion = TwigOpinion.Of(work, planes, paper, options, cancel);
        cancel.ThrowIfCancellationRequested();
        Mat twig = opinion.Twig;
        if (opinion.Tissue is not { } tissue)
        {
            return KindMeasurement.None(
                "No twig stands out from what lies behind it.", "Lay the twig on a plain sheet, or hold it in front of something farther away, so that it fills a good part of the frame.");
        }

        FrameLight light = FrameLight.Of(paper, planes, twig);
        SettledColour sound = SettledColour.Settle(
            tissue.Codes, planes, tissue.Own, tissue.Bounds, healthy, light, new FoliageLook("twig", options.DiscolouredFrom, options.BrownedFrom));

        // Where the healthy photo's colour decided, both ways have had their say.
        Witness? witness = sound.Own == tissue.Own ? opinion.Witness : null;
        LeafShares shares = FoliageFigures.Shares(tissue.Codes);
        List<SpeckMark> specks = TwigSpecks.Of(tissue.Codes, 1 / scale);
        List<string> flags = Flags(sound, twig, paper is not null, shares, specks.Count);
        if (witness?.Part == true)
        {
            flags.Add(Flag.WaysDiffer.Name);
        }

        (double low, double high) = TwigInterval.Of(shares.Damage, sound.Bounds, paper is not null, witness);
        high = sound.Own.Unsure ? Math.Max(high, sound.Bounds.High) : high;
        LeafReading reading = new()
        {
            Outline = FoliageFigures.Outline(twig, 6, bgr.Size()),
            AreaPx = 0,
            Shares = shares,
            Damage = shares.Damage,
            DamageLow = low,
            DamageHigh = high,
            SpeckCount = specks.Count,
            SpeckDiameterMedianPx = specks.Count == 0 ? 0 : specks.Select(s => s.DiameterPx).Order().ElementAt(specks.Count / 2),
            SpeckCentres = specks,
            Causes = TwigCauses.Judge(TwigPattern.Read(tissue, shares, specks.Count)),
            Flags = flags,
            Greenness = FoliageFigures.Greenness(work, tissue.Codes, MaskCode.Sound, Math.Exp(-light.RedToGreen / 2.2), Math.Exp(-light.BlueToGreen / 2.2)),
            NewGrowth = FreshGrowth.Share(planes, tissue.Codes, Math.Max(3, work.Cols / 130.0), FreshBy, 0.97),
            HealthyPhoto = sound.HealthySha256,
        };
        SingleNeedles? needles = opinion.Witness?.Overlap < LeastOverlapForNeedles ? null : SingleNeedles.Of(opinion.ByColour);
        return KindMeasurement.Of(reading, tissue.Codes, bgr.Size(), sound.Own, light, needles?.LengthPx / scale);
    }

    private static List<string> Flags(SettledColour sound, Mat twig, bool onSheet, LeafShares shares, int specks)
    {
        List<string> flags = [.. sound.Flags];
        if (!onSheet)
        {
            flags.Add(Flag.OutlineUnsure.Name);
        }

        if (shares.Unassessed > 0.05)
        {
            flags.Add(Flag.Glare.Name);
        }

        if (specks > 0)
        {
            flags.Add(Flag.CountIsLowerBound.Name);
        }

        if (TouchesFrame(twig) > 0.02)
        {
            flags.Add(Flag.LeafCutOff.Name);
        }

        return flags;
    }

    // Share of the frame's border under the twig: one stem may well run out, a twig cut through covers more.
    private static double TouchesFrame(Mat twig)
    {
        int touching = Cv2.CountNonZero(twig.Row(0)) + Cv2.CountNonZero(twig.Row(twig.Rows - 1)) + Cv2.CountNonZero(twig.Col(0)) + Cv2.CountNonZero(twig.Col(twig.Cols - 1));
        return touching / (2.0 * (twig.Cols + twig.Rows));
    }
}
