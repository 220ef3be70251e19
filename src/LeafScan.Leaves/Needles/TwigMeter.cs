using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>Measures a close-up of a conifer's twig: how much of its foliage is stippled, yellowed, browned.</summary>
internal static class TwigMeter
{
    // How much yellower fresh needles are at least, ln(B/G): found on renders with ordinary seeds.
    private const double FreshBy = 0.11;

    /// <summary>Measures.</summary>
    /// <param name="bgr">Upright photo, 8-bit B, G, R; not changed.</param>
    /// <param name="options">How.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static KindMeasurement Measure(Mat bgr, TwigOptions options, CancellationToken cancel)
    {
        if (Math.Min(bgr.Cols, bgr.Rows) < 200)
        {
            return KindMeasurement.None("The photo is too small to measure a twig in it.", "Use the photo as the phone took it.");
        }

        double scale = Math.Min(1, options.LongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat work = new();
        Cv2.Resize(bgr, work, default, scale, scale, InterpolationFlags.Area);
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

        LeafShares shares = FoliageFigures.Shares(tissue.Codes);
        (double gainRed, double gainBlue) = Gains(paper, planes, twig);
        List<SpeckMark> specks = TwigSpecks.Of(tissue.Codes, 1 / scale);
        List<string> flags = Flags(tissue, twig, paper is not null, shares, specks.Count);
        if (opinion.Witness?.Part == true)
        {
            flags.Add(Flag.WaysDiffer.Name);
        }

        (double low, double high) = TwigInterval.Of(shares.Damage, tissue.Bounds, paper is not null, opinion.Witness);
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
            Greenness = FoliageFigures.Greenness(work, tissue.Codes, MaskCode.Sound, gainRed, gainBlue),
            NewGrowth = FreshGrowth.Share(planes, tissue.Codes, Math.Max(3, work.Cols / 130.0), FreshBy, 0.97),
        };
        return KindMeasurement.Of(reading, tissue.Codes, bgr.Size());
    }

    // The sheet's own colour at the twig says what the light did; factors on sRGB values, close enough for one mean.
    private static (double Red, double Blue) Gains(PaperModel? paper, ColourPlanes planes, Mat twig)
    {
        if (paper is null)
        {
            return (1, 1);
        }

        double red = Cv2.Mean(planes.RedToGreen, twig).Val0 - Cv2.Mean(paper.RedGreenOff, twig).Val0;
        double blue = Cv2.Mean(planes.BlueToGreen, twig).Val0 - Cv2.Mean(paper.BlueGreenOff, twig).Val0;
        return (Math.Exp(-red / 2.2), Math.Exp(-blue / 2.2));
    }

    private static List<string> Flags(TwigTissue tissue, Mat twig, bool onSheet, LeafShares shares, int specks)
    {
        List<string> flags = [];
        if (!onSheet)
        {
            flags.Add(Flag.OutlineUnsure.Name);
        }

        if (tissue.Own.Unsure)
        {
            flags.Add(Flag.SoundColourUnsure.Name);
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
