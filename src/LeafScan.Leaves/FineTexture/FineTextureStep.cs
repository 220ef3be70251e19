using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tissue;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.FineTexture;

/// <summary>
/// Reads the fine texture of every leaf and replaces the speck count of a small one by a share from it, with a wide interval and the flag specksTooFine.
/// What was measured on larger leaves stays as it is.
/// </summary>
internal static class FineTextureStep
{
    // Painted specks of known area gave shares up to three times off either way; below, the texture may be none at all.
    private const double TimesOff = 3;

    /// <summary>Judges the texture of a leaf where that is called for; takes ownership of the leaf and gives one back.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, full size.</param>
    /// <param name="leaf">The leaf as judged pixel by pixel.</param>
    /// <param name="options">When and how.</param>
    public static JudgedLeaf Apply(Mat bgr, JudgedLeaf leaf, FineTextureOptions options)
    {
        using TextureLook look = TextureLook.At(bgr, leaf.Found, options);
        return Apply(leaf, look, options);
    }

    /// <summary>The same with the texture at hand.</summary>
    /// <param name="leaf">The leaf as judged pixel by pixel.</param>
    /// <param name="look">Its texture.</param>
    /// <param name="options">When and how.</param>
    public static JudgedLeaf Apply(JudgedLeaf leaf, TextureLook look, FineTextureOptions options)
    {
        if (look.Reading is not { } texture)
        {
            return leaf;
        }

        Rect box = look.Leaf;
        if (Math.Max(box.Width, box.Height) >= options.BelowLeafPx)
        {
            return new JudgedLeaf(leaf.Found, leaf.Patch, leaf.Tissue) { Texture = texture.Features, Chewed = leaf.Chewed };
        }

        // On very few pixels glints are counted by the dozen, but they leave no pale marks in the colour.
        bool borneOut = texture.Features.PaleMarks >= options.CountNeedsPaleMarks || Math.Max(box.Width, box.Height) >= options.CountTrustedFromPx;
        if (leaf.Tissue.Specks.Count >= options.CountStandsFrom && borneOut)
        {
            return new JudgedLeaf(leaf.Found, leaf.Patch, leaf.Tissue) { Texture = texture.Features, FewPixels = true, Chewed = leaf.Chewed };
        }

        return new JudgedLeaf(leaf.Found, leaf.Patch, ByTexture(leaf, texture, options)) { Texture = texture.Features, FewPixels = true, Chewed = leaf.Chewed };
    }

    /// <summary>Share of the blade that is stippled if the texture is stippling, 0..1.</summary>
    internal static double ShareIfStippled(TextureFeatures f, FineTextureOptions options)
        => Math.Min(1, options.SharePerDotEnergy * f.DotEnergy * f.DotEnergy / (f.DotEnergy + options.SoundDotEnergy));

    private static TissueMap ByTexture(JudgedLeaf leaf, TextureReading texture, FineTextureOptions options)
    {
        (Mat codes, TextureFeatures f) = (leaf.Tissue.Codes, texture.Features);
        double before = Damage(codes);
        PaleTissue.Release(codes);
        double rest = Damage(codes);
        double possible = ShareIfStippled(f, options);
        double share = PaleTissue.Mark(codes, texture.Pale, possible * f.StippleFit);

        // Marks that fit no stippling may still be specks of a kind or in a light that is strange to the signs.
        double doubtful = possible * f.PaleMarks;

        // The rest keeps the doubt it had.
        double down = Math.Max(0, before - leaf.Tissue.Low);
        double up = Math.Max(0, leaf.Tissue.High - before);
        List<string> flags = leaf.Tissue.Flags.Where(name => name != Flag.CountIsLowerBound.Name && name != Flag.CountEstimated.Name).ToList();
        if (doubtful > 0.005)
        {
            flags.Add(Flag.SpecksTooFine.Name);
        }

        double high = rest + up + Math.Min(1 - rest, TimesOff * Math.Max(share, doubtful / TimesOff));
        return new TissueMap(codes, [], Math.Max(0, rest - down), Math.Min(1, high), flags);
    }

    private static double Damage(Mat codes)
    {
        double hurt = Count(codes, MaskCode.Speck) + Count(codes, MaskCode.Yellowed) + Count(codes, MaskCode.Browned);
        double judged = hurt + Count(codes, MaskCode.Sound);
        return judged > 0 ? hurt / judged : 0;
    }

    private static int Count(Mat codes, MaskCode code)
    {
        using Mat hit = new();
        Cv2.InRange(codes, Scalar.All((int)code), Scalar.All((int)code), hit);
        return Cv2.CountNonZero(hit);
    }
}
