using LeafScan.Leaves.Reading;
using static LeafScan.Leaves.Causes.CauseWords;

namespace LeafScan.Leaves.Causes;

/// <summary>Brown patches larger than specks.</summary>
internal static class LeafSpotCause
{
    /// <summary>Leaf spot.</summary>
    public static LeafCause Of(LeafFeatures f)
    {
        double byArea = Soft(f.Shares.Browned, 0.008);
        double byNumber = Soft(f.Brown.Count, 4) * Soft(f.Shares.Browned, 0.0015);
        double score = f.Brown.Count == 0 ? 0 : Math.Max(byArea, byNumber);

        // Spots of two or three pixels are not outlined as brown, but they show in the texture.
        double byTexture = f is { FewPixels: true, Texture: { } texture } ? 0.8 * texture.SpotFit : 0;

        // Brown at the margin only is scorch or drought as often as a spot.
        score *= 1 - (0.5 * Foot(f.Brown.AtMarginShare, 0.7));
        List<string> because = [];
        if (byTexture > score)
        {
            score = byTexture;
            because.Add("the fine texture is redder and duller where it is darker, as small brown spots are; too few pixels to outline them");
        }

        if (f.Brown.Count > 0)
        {
            because.Add($"{Count(f.Brown.Count, "brown patch", "brown patches")} on {Percent(f.Shares.Browned)} of the leaf, larger than specks (half of them wider than {Percent(f.Brown.SizeToLeaf)} of its length)");
        }

        if (f.Brown.HaloShare > 0.2)
        {
            because.Add($"{Percent(f.Brown.HaloShare)} of the rim about them is yellow or pale, as about many leaf spots");
        }

        if (f.Brown.AtMarginShare > 0.6)
        {
            because.Add($"{Percent(f.Brown.AtMarginShare)} of the brown lies at the margin: think of scorch, salt and drought as well");
        }

        because.Add("look with a lens for a rim, a yellow ring or tiny dark bodies in the patch");
        return new LeafCause("leafSpot", Round(score), because);
    }
}
