using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Discolouring;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tissue;

/// <summary>
/// Judges tissue by colour and contrast against the leaf's own sound colour, without a learned model: the fallback and the
/// check of the learned one.
/// </summary>
internal static class ColourTissue
{
    // How far the yellow threshold is moved each way for the first estimate of its share of the uncertainty.
    private const double ThresholdStep = 0.15;

    /// <summary>Reads the tissue of one leaf.</summary>
    public static TissueMap Read(LeafPatch patch, TissueOptions options)
    {
        using ColourRatios ratios = ColourRatios.Of(patch.Bgr);
        SoundColour sound = SoundColour.Fit(ratios, patch.Mask);
        using Mat strength = BleachStrength.Of(ratios, sound);
        using Mat merged = new(patch.Mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat yellowed = DiscolourFinder.Yellowed(strength, patch.Mask, options.YellowStrength, merged);
        using Mat yellowedStrict = DiscolourFinder.Yellowed(strength, patch.Mask, options.YellowStrength + ThresholdStep);
        using Mat yellowedGenerous = DiscolourFinder.Yellowed(strength, patch.Mask, options.YellowStrength - ThresholdStep);
        using Mat browned = DiscolourFinder.Browned(ratios, sound, patch.Mask, options);
        using Mat glare = Glare(patch, options.GlareLevel);
        List<SpeckMark> specks = SpeckFinder.Find(patch, strength, yellowed, options, out Mat covered);
        using (covered)
        {
            specks.RemoveAll(s => browned.AsRow<byte>((int)s.Y)[(int)s.X] != 0 || glare.AsRow<byte>((int)s.Y)[(int)s.X] != 0);
            Mat codes = new(patch.Mask.Size(), MatType.CV_8UC1, Scalar.All(0));
            codes.SetTo(Scalar.All((int)MaskCode.Sound), patch.Mask);
            codes.SetTo(Scalar.All((int)MaskCode.Yellowed), yellowed);
            codes.SetTo(Scalar.All((int)MaskCode.Speck), covered);
            bool fields = AddMerged(codes, strength, merged, options.YellowStrength);
            codes.SetTo(Scalar.All((int)MaskCode.Browned), browned);
            codes.SetTo(Scalar.All((int)MaskCode.Unassessed), glare);

            List<string> flags = [];
            if (sound.KeptShare < 0.25)
            {
                flags.Add(Flag.SoundColourUnsure.Name);
            }

            if (fields)
            {
                flags.Add(Flag.CountIsLowerBound.Name);
            }

            (double low, double high) = Range(codes, yellowedStrict, yellowedGenerous);
            return new TissueMap(codes, specks, low, high, flags);
        }
    }

    // In a field where specks have run together each bleached pixel is speck, whether or not it has a peak of its own.
    private static bool AddMerged(Mat codes, Mat strength, Mat merged, double threshold)
    {
        if (Cv2.CountNonZero(merged) == 0)
        {
            return false;
        }

        using Mat smooth = new();
        Cv2.GaussianBlur(strength, smooth, default, 1);
        using Mat bleached = new();
        Cv2.Compare(smooth, Scalar.All(threshold), bleached, CmpTypes.GT);
        Cv2.BitwiseAnd(bleached, merged, bleached);
        codes.SetTo(Scalar.All((int)MaskCode.Speck), bleached);
        return true;
    }

    // Damage with the yellow contour drawn tighter and wider, and specks a third smaller and larger in area: a disc of
    // six pixels gains or loses about that much when its rim moves by half a pixel.
    private static (double Low, double High) Range(Mat codes, Mat strict, Mat generous)
    {
        double sound = Count(codes, MaskCode.Sound);
        double speck = Count(codes, MaskCode.Speck);
        double yellow = Count(codes, MaskCode.Yellowed);
        double brown = Count(codes, MaskCode.Browned);
        double judged = Math.Max(1, sound + speck + yellow + brown);
        double less = Math.Max(0, yellow - Cv2.CountNonZero(strict));
        double more = Math.Max(0, Cv2.CountNonZero(generous) - yellow);
        double damage = (speck + yellow + brown) / judged;
        double down = Math.Sqrt(Square(less / judged) + Square(0.33 * speck / judged) + Square(0.15 * brown / judged));
        double up = Math.Sqrt(Square(more / judged) + Square(0.33 * speck / judged) + Square(0.15 * brown / judged));
        return (damage - down, damage + up);
    }

    private static double Square(double x) => x * x;

    private static double Count(Mat codes, MaskCode code)
    {
        using Mat hit = new();
        Cv2.InRange(codes, Scalar.All((int)code), Scalar.All((int)code), hit);
        return Cv2.CountNonZero(hit);
    }

    // Burnt-out areas wider than a glint.
    private static Mat Glare(LeafPatch patch, int level)
    {
        Mat glare = new();
        Cv2.InRange(patch.Bgr, Scalar.All(level), Scalar.All(255), glare);
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(7, 7));
        Cv2.MorphologyEx(glare, glare, MorphTypes.Open, kernel);
        Cv2.BitwiseAnd(glare, patch.Mask, glare);
        return glare;
    }
}
