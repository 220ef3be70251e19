using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks;
using LeafScan.Leaves.Specks.Judge;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Specks;

public class SpeckVerdictTests
{
    [Fact]
    public void Rejected_patches_become_sound_and_accepted_ones_stay()
    {
        using Mat codes = Plain();
        Cv2.Circle(codes, new Point(20, 20), 4, Scalar.All((int)MaskCode.Speck), -1);
        Cv2.Circle(codes, new Point(60, 20), 4, Scalar.All((int)MaskCode.Speck), -1);
        int one = Count(codes) / 2;
        List<SpeckMark> specks = Apply(codes, [Seen(20, 20, 1), Seen(60, 20, 1)], [0.1f, 0.9f]);
        Assert.Equal(60, Assert.Single(specks).X);
        Assert.Equal(one, Count(codes));
        Assert.Equal((byte)MaskCode.Sound, codes.AsRow<byte>(20)[20]);
        Assert.Equal((byte)MaskCode.Speck, codes.AsRow<byte>(20)[60]);
    }

    [Fact]
    public void Where_verdicts_are_mixed_in_one_patch_the_nearest_candidate_decides()
    {
        using Mat codes = Plain();
        Cv2.Rectangle(codes, new Rect(10, 30, 40, 6), Scalar.All((int)MaskCode.Speck), -1);
        Apply(codes, [Seen(15, 33, 1), Seen(45, 33, 1)], [0.9f, 0.1f]);
        Assert.Equal((byte)MaskCode.Speck, codes.AsRow<byte>(33)[12]);
        Assert.Equal((byte)MaskCode.Speck, codes.AsRow<byte>(33)[28]);
        Assert.Equal((byte)MaskCode.Sound, codes.AsRow<byte>(33)[32]);
        Assert.Equal((byte)MaskCode.Sound, codes.AsRow<byte>(33)[48]);
    }

    [Fact]
    public void A_candidate_turned_down_in_doubt_takes_nothing_from_a_patch_with_an_accepted_one()
    {
        using Mat codes = Plain();
        Cv2.Rectangle(codes, new Rect(10, 30, 40, 6), Scalar.All((int)MaskCode.Speck), -1);
        int before = Count(codes);
        List<SpeckMark> specks = Apply(codes, [Seen(15, 33, 1), Seen(45, 33, 1)], [0.9f, 0.4f]);
        Assert.Single(specks);
        Assert.Equal(before, Count(codes));
    }

    [Fact]
    public void A_patch_whose_only_candidates_were_turned_down_in_doubt_becomes_sound()
    {
        using Mat codes = Plain();
        Cv2.Circle(codes, new Point(20, 20), 4, Scalar.All((int)MaskCode.Speck), -1);
        Assert.Empty(Apply(codes, [Seen(20, 20, 1)], [0.4f]));
        Assert.Equal(0, Count(codes));
    }

    [Fact]
    public void A_patch_without_any_candidate_stays_as_the_network_saw_it()
    {
        using Mat codes = Plain();
        Cv2.Circle(codes, new Point(20, 20), 4, Scalar.All((int)MaskCode.Speck), -1);
        int before = Count(codes);
        Apply(codes, [Seen(70, 70, 0)], [0.1f]);
        Assert.Equal(before, Count(codes));
    }

    [Fact]
    public void An_accepted_speck_that_the_network_did_not_code_gets_the_pixels_of_its_disc_on_sound_tissue_only()
    {
        using Mat codes = Plain();
        codes.AsRow<byte>(40)[41] = (byte)MaskCode.Browned;
        Apply(codes, [Seen(40, 40, 0)], [0.9f]);
        Assert.InRange(Count(codes), 20, 45);
        Assert.Equal((byte)MaskCode.Browned, codes.AsRow<byte>(40)[41]);
    }

    private static SpeckCandidate Seen(int x, int y, float coded)
        => new() { Mark = new SpeckMark(x, y, 7), CentreScore = 0.3, [SpeckFeature.CodedShare] = coded };

    private static Mat Plain() => new(96, 96, MatType.CV_8UC1, Scalar.All((int)MaskCode.Sound));

    private static List<SpeckMark> Apply(Mat codes, List<SpeckCandidate> candidates, float[] chances)
    {
        using LeafPatch patch = LeafPatch.Of(new Rect(0, 0, 96, 96), new Mat(96, 96, MatType.CV_8UC3, new Scalar(70, 124, 90)), new Mat(96, 96, MatType.CV_8UC1, Scalar.All(255)));
        using Mat none = new(96, 96, MatType.CV_32FC1, Scalar.All(0));
        using Mat yellowed = new(96, 96, MatType.CV_8UC1, Scalar.All(0));
        using ColourResponse response = ColourResponse.Of(patch, none);
        using Mat smooth = SpeckFinder.Smooth(response.Strength);
        return SpeckVerdict.Apply(candidates, chances, 0.45, codes, smooth, patch.Mask, yellowed);
    }

    private static int Count(Mat codes)
    {
        using Mat speck = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        return Cv2.CountNonZero(speck);
    }
}
