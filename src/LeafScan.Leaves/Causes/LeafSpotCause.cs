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

        // Brown at the margin only is scorch or drought as often as a spot.
        score *= 1 - (0.5 * Foot(f.Brown.AtMarginShare, 0.7));
        List<string> because =
        [
            $"{Count(f.Brown.Count, "brown patch", "brown patches")} on {Percent(f.Shares.Browned)} of the leaf, larger than specks (half of them wider than {Percent(f.Brown.SizeToLeaf)} of its length)",
        ];
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
