using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests;

public sealed class DamageIntervalTests
{
    [Fact]
    public void Only_patches_that_reach_the_margin_count_as_rim_patches()
    {
        using Mat mask = new(100, 100, MatType.CV_8UC1, Scalar.All(255));
        using Mat codes = new(100, 100, MatType.CV_8UC1, Scalar.All((int)MaskCode.Sound));

        // Areas by hand: 10 x 20 pixels at the margin, 10 x 10 in the middle, a speck at the margin that is no patch.
        Cv2.Rectangle(codes, new Rect(0, 40, 10, 20), Scalar.All((int)MaskCode.Browned), -1);
        Cv2.Rectangle(codes, new Rect(50, 50, 10, 10), Scalar.All((int)MaskCode.Yellowed), -1);
        Cv2.Rectangle(codes, new Rect(96, 10, 4, 4), Scalar.All((int)MaskCode.Speck), -1);

        Assert.Equal(200 / 10_000.0, RimPatches.ShareOf(codes, mask), 6);
    }

    [Fact]
    public void A_doubtful_outline_lets_the_interval_reach_down_by_what_lies_at_the_margin()
    {
        LeafShares shares = new(0.85, 0.0, 0.0, 0.15, 0.0, 0.0);
        using FoundLeaf sure = Found();
        using FoundLeaf cut = Found(Flag.LeafCutOff.Name);

        double lowSure = DamageInterval.Of(shares, 0.14, 0.16, 10_000, sure, 0.14).Low;
        double lowCut = DamageInterval.Of(shares, 0.14, 0.16, 10_000, cut, 0.14).Low;

        Assert.InRange(lowSure, 0.12, 0.15);
        Assert.InRange(lowCut, 0.0, 0.02);
    }

    private static FoundLeaf Found(params string[] flags)
        => new(new Rect(0, 0, 10, 10), new Mat(10, 10, MatType.CV_8UC1, Scalar.All(255)), flags);
}
