using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Discolouring;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks;
using LeafScan.Leaves.Tissue;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// Adds specks that the colour way sees beyond doubt and the network passed over. The network has been shown yellowish
/// specks on matt leaves; silvery ones are strange to it, but not to a filter that knows the leaf's own colour.
/// </summary>
internal static class SecondLook
{
    /// <summary>Adds to the map's codes and specks.</summary>
    /// <param name="patch">The leaf.</param>
    /// <param name="codes">Mask codes from the network; sound tissue may become speck.</param>
    /// <param name="specks">Specks from the network; further ones are added.</param>
    /// <param name="options">Thresholds.</param>
    public static void Add(LeafPatch patch, Mat codes, List<SpeckMark> specks, TissueOptions options)
    {
        using ColourRatios ratios = ColourRatios.Of(patch.Bgr);
        SoundColour sound = SoundColour.Fit(ratios, patch.Mask);
        using Mat strength = BleachStrength.Of(ratios, sound);
        using Mat yellowed = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Yellowed), Scalar.All((int)MaskCode.Yellowed), yellowed);
        TissueOptions sure = options with { SpeckSignalToNoise = options.SureSignalToNoise, SpeckStrength = options.SureStrength };
        List<SpeckMark> found = SpeckFinder.Find(patch, strength, yellowed, sure, out Mat covered);
        using (covered)
        {
            using Mat soundTissue = new();
            Cv2.InRange(codes, Scalar.All((int)MaskCode.Sound), Scalar.All((int)MaskCode.Sound), soundTissue);
            found.RemoveAll(s => soundTissue.AsRow<byte>((int)s.Y)[(int)s.X] == 0);
            Cv2.BitwiseAnd(covered, soundTissue, covered);
            codes.SetTo(Scalar.All((int)MaskCode.Speck), covered);
            specks.AddRange(found);
        }
    }
}
