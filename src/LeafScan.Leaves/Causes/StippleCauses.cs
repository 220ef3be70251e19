using LeafScan.Leaves.FineTexture;
using LeafScan.Leaves.Reading;
using static LeafScan.Leaves.Causes.CauseWords;

namespace LeafScan.Leaves.Causes;

/// <summary>Mite stippling, and stippling that looks like a lace bug's.</summary>
internal static class StippleCauses
{
    // Lace bugs leave coarser flecks than mites: about this share of the leaf's length and more. Common practice, no source.
    private const double CoarseSpeckToLeaf = 0.011;

    /// <summary>Mite stippling.</summary>
    public static LeafCause Mites(LeafFeatures f)
        => f is { FewPixels: true, Texture: { } texture } ? ByTexture(f, texture) : ByCount(f);

    /// <summary>
    /// Stippling as a lace bug leaves it. Never more likely than mites by pattern alone; droppings between coarse flecks
    /// raise it.
    /// </summary>
    public static LeafCause LaceBugs(LeafFeatures f, double mites)
    {
        double coarse = Foot(f.Specks.DiameterToLeaf, CoarseSpeckToLeaf);
        double dots = Foot(f.Specks.DarkDotCount, Math.Max(6, 0.05 * f.Specks.Count));
        double score = mites * (0.3 + (0.25 * coarse) + (0.75 * coarse * dots));
        List<string> because = [];
        if (f.Specks.DarkDotCount > 0 && coarse > 0.3)
        {
            because.Add($"{Count(f.Specks.DarkDotCount, "small dark dot lies", "small dark dots lie")} among coarse pale flecks, as droppings would");
        }
        else
        {
            because.Add("pale flecks alone look the same from mites and from lace bugs; this photo cannot tell them apart");
        }

        because.Add("is the underside dotted with dark shiny droppings? Then lace bugs; skins, round eggs and webbing speak for mites");
        return new LeafCause("laceBugStipple", Round(score), because);
    }

    private static LeafCause ByCount(LeafFeatures f)
    {
        // Specks by number and by area: thirty specks on a leaf are plain to a trained eye, five are not. Pale rims about
        // brown spots are no feeding marks.
        double own = 1 - Foot(f.Specks.AtBrownShare, 0.35);
        double byCount = Soft(f.Specks.Count * own, 25);
        double byArea = Soft(f.Shares.Stippled * own, 0.006);

        // Many spots and fewer specks than a mite leaves: the specks are the smallest of the spots.
        double spotty = Foot(f.Shares.Browned / Math.Max(f.Shares.Stippled, 0.004), 1.2) * Soft(f.Brown.Count, 3);
        double score = Math.Sqrt(byCount * byArea) * (1 - (0.75 * spotty));
        List<string> because = [$"{Count(f.Specks.Count, "pale speck", "pale specks")} on {Percent(f.Shares.Stippled)} of the leaf"];
        if (f.Specks is { Count: >= 20, AtMidribTimes: >= 1.3 })
        {
            because.Add($"{Number(f.Specks.AtMidribTimes)} times as dense along the midrib as elsewhere, where mites begin");
        }

        if (f.Specks.AtBrownShare > 0.2)
        {
            because.Add($"against it: {Percent(f.Specks.AtBrownShare)} of the specks touch brown tissue");
        }

        return new LeafCause("miteStippling", Round(score), [.. because, .. WhatNext]);
    }

    private static LeafCause ByTexture(LeafFeatures f, TextureFeatures texture)
    {
        double score = texture.StippleFit * texture.PaleMarks;
        string fits = score > 0.3 ? "its fine texture is paler and yellower in dots, as stippling is" : "its fine texture does not look like many pale, yellowish dots";
        return new LeafCause("miteStippling", Math.Round(score, 6),
        [
            $"the leaf has too few pixels to count specks; {fits} (about {Percent(f.Shares.Stippled)} of the leaf)",
            "photograph it again from closer by: the leaf should fill the frame",
            .. WhatNext,
        ]);
    }

    private static IEnumerable<string> WhatNext =>
    [
        "look under the leaf with a 10x lens: skins, round eggs and webbing speak for mites, dark shiny droppings for lace bugs",
        "tap a branch over a white sheet before treating: specks stay after the mites have gone",
    ];
}
