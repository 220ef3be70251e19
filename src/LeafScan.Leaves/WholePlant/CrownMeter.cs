using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>Measures a whole plant from two to four metres: discoloured foliage, gaps in the crown, the worst side.</summary>
internal static class CrownMeter
{
    // How smooth the full outline is and how wide a gap it bridges, shares of the root of the area.
    internal const double Smoothing = 0.03;
    internal const double WidestNotch = 0.5;

    // Even against a common green some of a plant that has lost its green all over passes for sound: a tenth (renders).
    private const double RoomWhereUnsure = 0.1;

    // How much yellower fresh tufts are at least, ln(B/G): from afar light and shade scatter it more than on a twig.
    private const double FreshBy = 0.22;

    /// <summary>Measures.</summary>
    /// <param name="bgr">Upright photo, 8-bit B, G, R; not changed.</param>
    /// <param name="options">How.</param>
    /// <param name="taken">When it was taken: fall colour has its months; null when unknown.</param>
    /// <param name="cancel">Stops between steps.</param>
    /// <param name="healthy">Sound colour from a healthy photo; null for the plant's own.</param>
    /// <param name="balanced">The photo's light was made neutral by a scale sheet in it.</param>
    public static KindMeasurement Measure(Mat bgr, CrownOptions options, CaptureTime? taken, CancellationToken cancel, HealthyColour? healthy = null, bool balanced = false)
    {
        if (Math.Min(bgr.Cols, bgr.Rows) < 200)
        {
            return KindMeasurement.None("The photo is too small to measure a plant in it.", "Use the photo as the phone took it.");
        }

        double scale = Math.Min(1, options.LongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat work = new();
        AreaShrink.Into(bgr, work, scale);
        using ColourPlanes planes = ColourPlanes.Of(work);
        using CrownOpinion opinion = CrownOpinion.Of(bgr, work, planes, options, cancel);
        cancel.ThrowIfCancellationRequested();
        Mat foliage = opinion.Foliage;
        if (opinion.Tissue is not { } tissue || !LooksLikeFoliage(planes, foliage))
        {
            return KindMeasurement.None(
                "No plant stands out in the middle of the photo.", "Stand two to four metres away so that the whole plant fills the middle of the frame, with a hand's breadth around it.");
        }

        FrameLight light = balanced ? FrameLight.Balanced : FrameLight.Unknown;
        SettledColour sound = SettledColour.Settle(
            tissue.Codes, planes, tissue.Own, tissue.Bounds, healthy, light, new FoliageLook("plant", options.DiscolouredFrom, options.BrownedFrom));
        using Mat full = opinion.Full?.Clone() ?? Envelope.Full(foliage, Smoothing, WidestNotch);
        GapRule gaps = opinion.Full is null ? CrownGaps.Guessed : CrownGaps.Seen;
        CrownSectors sectors = new(work, tissue.Codes, full, gaps);
        LeafShares shares = FoliageFigures.Shares(tissue.Codes);
        double thinning = gaps(Cv2.CountNonZero(foliage), Cv2.CountNonZero(full));
        (double thinLow, double thinHigh) = CrownIntervals.Thinning(thinning, opinion.Full is not null, opinion.OtherThinning);
        CrownReading crown = new()
        {
            Thinning = thinning,
            ThinningLow = thinLow,
            ThinningHigh = thinHigh,
            WorstSide = sectors.Halves().Worst,
            WorstHeight = sectors.WorstHeight(),
            FallColour = tissue.FallColour,
            Sectors = sectors.All(),
        };
        double patchiness = sectors.Patchiness();
        Season season = Season.Of(taken, shares.Damage, patchiness);
        double fresh = FreshGrowth.Share(planes, tissue.Codes, Math.Max(2, work.Cols / 400.0), FreshBy, 0.6);

        // Where the healthy photo's colour decided, both ways have had their say.
        Witness? witness = sound.Own == tissue.Own ? opinion.Witness : null;
        (double low, double high) = CrownIntervals.Damage(shares.Damage, sound.Bounds, witness);
        high = sound.Own.Unsure ? Math.Min(1, Math.Max(high, sound.Bounds.High) + RoomWhereUnsure) : high;
        LeafReading reading = new()
        {
            Outline = FoliageFigures.Outline(opinion.Full is null ? foliage : full, 8, bgr.Size()),
            AreaPx = 0,
            Shares = shares,
            Damage = shares.Damage,
            DamageLow = low,
            DamageHigh = high,
            SpeckCount = 0,
            SpeckDiameterMedianPx = 0,
            SpeckCentres = [],
            Causes = CrownCauses.Judge(shares, crown, patchiness, season, fresh),
            Flags = [.. Flags(sound, tissue.FallColour, foliage, shares, season), .. witness?.Part == true ? [Flag.WaysDiffer.Name] : Array.Empty<string>()],
            Greenness = FoliageFigures.Greenness(work, tissue.Codes, MaskCode.Sound),
            NewGrowth = fresh,
            Crown = crown,
            HealthyPhoto = sound.HealthySha256,
        };
        return KindMeasurement.Of(reading, tissue.Codes, bgr.Size(), sound.Own, light);
    }

    // Sky, road and wall are flat and grey: foliage differs from grey in most of its pixels, whatever its colour.
    private static bool LooksLikeFoliage(ColourPlanes planes, Mat foliage)
    {
        using Mat grey = new();
        Cv2.InRange(planes.RedToGreen, new Scalar(-0.1), new Scalar(0.12), grey);
        using Mat other = new();
        Cv2.InRange(planes.BlueToGreen, new Scalar(-0.25), new Scalar(10), other);
        Cv2.BitwiseAnd(grey, other, grey);
        Cv2.BitwiseAnd(grey, foliage, grey);
        using Mat sharp = Sharpness.Of(planes.Level, 3);
        return Cv2.CountNonZero(grey) < 0.6 * Cv2.CountNonZero(foliage) && Cv2.Mean(sharp, foliage).Val0 > 0.02;
    }

    private static List<string> Flags(SettledColour sound, double fallColour, Mat foliage, LeafShares shares, Season season)
    {
        List<string> flags = [.. sound.Flags];
        if (shares.Unassessed > 0.05)
        {
            flags.Add(Flag.Glare.Name);
        }

        if (season.MayBeFallColour || fallColour > 0.05)
        {
            flags.Add(Flag.FallColourPossible.Name);
        }

        Rect box = Cv2.BoundingRect(foliage);
        int edge = Math.Max(2, foliage.Cols / 30);
        if (box.Left <= edge || box.Top <= edge || box.Right >= foliage.Cols - edge)
        {
            flags.Add(Flag.LeafCutOff.Name);
        }

        return flags;
    }
}
