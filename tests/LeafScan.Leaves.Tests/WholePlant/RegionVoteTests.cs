using LeafScan.Leaves.WholePlant;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.WholePlant;

public class RegionVoteTests
{
    [Fact]
    public void A_small_piece_that_the_guess_does_not_see_goes_and_a_large_one_stays()
    {
        using Mat region = Box(new Rect(150, 100, 100, 160));
        using Mat guess = region.Clone();
        Cv2.Rectangle(region, new Rect(250, 220, 40, 30), Scalar.All(255), -1);
        Cv2.Rectangle(region, new Rect(90, 100, 60, 120), Scalar.All(255), -1);

        RegionVote.Correct(region, guess);

        Assert.Equal(0, region.Get<byte>(235, 275));
        Assert.Equal(255, region.Get<byte>(160, 110));
        Assert.Equal(255, region.Get<byte>(160, 200));
    }

    [Fact]
    public void A_part_that_only_the_guess_sees_comes_back_unless_it_lies_at_the_sides_of_the_frame()
    {
        using Mat region = Box(new Rect(150, 100, 120, 160));
        using Mat guess = region.Clone();
        Cv2.Rectangle(guess, new Rect(270, 120, 30, 80), Scalar.All(255), -1);
        Cv2.Rectangle(guess, new Rect(20, 100, 60, 60), Scalar.All(255), -1);

        RegionVote.Correct(region, guess);

        Assert.Equal(255, region.Get<byte>(160, 285));
        Assert.Equal(0, region.Get<byte>(130, 50));
    }

    private static Mat Box(Rect box)
    {
        Mat mask = new(360, 480, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Rectangle(mask, box, Scalar.All(255), -1);
        return mask;
    }
}
