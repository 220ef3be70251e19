using LeafScan.Leaves.WholePlant;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.WholePlant;

public class NeighbourSplitTests
{
    [Fact]
    public void A_neighbour_that_runs_out_of_the_frame_is_parted_at_the_waist()
    {
        using Mat mask = new(360, 480, MatType.CV_8UC1, Scalar.All(0));
        Disc(mask, 240, 200, 100);
        Disc(mask, 420, 190, 90);

        NeighbourSplit.Clear(mask);

        Assert.Equal(255, mask.Get<byte>(200, 200));
        Assert.Equal(255, mask.Get<byte>(200, 320));
        Assert.Equal(0, mask.Get<byte>(190, 420));
    }

    [Fact]
    public void A_lumpy_plant_that_stands_free_keeps_all_its_lumps()
    {
        using Mat mask = new(360, 480, MatType.CV_8UC1, Scalar.All(0));
        Disc(mask, 160, 220, 70);
        Disc(mask, 250, 180, 80);
        Disc(mask, 340, 220, 65);
        int before = Cv2.CountNonZero(mask);

        NeighbourSplit.Clear(mask);

        Assert.Equal(before, Cv2.CountNonZero(mask));
    }

    [Fact]
    public void A_wide_plant_without_a_waist_is_left_whole_though_it_reaches_the_frame()
    {
        using Mat mask = new(360, 480, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Rectangle(mask, new Rect(100, 150, 380, 150), Scalar.All(255), -1);
        int before = Cv2.CountNonZero(mask);

        NeighbourSplit.Clear(mask);

        Assert.Equal(before, Cv2.CountNonZero(mask));
    }

    private static void Disc(Mat mask, int x, int y, int radius) => Cv2.Circle(mask, new Point(x, y), radius, Scalar.All(255), -1);
}
