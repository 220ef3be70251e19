using LeafScan.Leaves.Chewing;
using LeafScan.Leaves.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Chewing;

public class ChewFinderTests
{
    [Fact]
    public void A_whole_leaf_has_nothing_missing()
    {
        using DrawnLeaf leaf = new();
        using ChewMap map = ChewFinder.Find(leaf.Mask, new ChewOptions());
        Assert.Equal(0, Cv2.CountNonZero(map.Missing));
        Assert.Equal(0, map.BiteCount);
        Assert.Equal(0, map.HoleCount);
    }

    [Fact]
    public void A_hole_is_missing_to_the_pixel()
    {
        using DrawnLeaf leaf = new DrawnLeaf().WithBite(new Point(350, 180), 20);
        using ChewMap map = ChewFinder.Find(leaf.Mask, new ChewOptions());
        Assert.Equal(1, map.HoleCount);
        using DrawnLeaf whole = new();
        Assert.Equal(Cv2.CountNonZero(whole.Mask) - Cv2.CountNonZero(leaf.Mask), Cv2.CountNonZero(map.Missing));
    }

    [Theory]
    [InlineData(20)]
    [InlineData(32)]
    public void A_bite_is_rebuilt_within_a_tenth_of_its_area(int radius)
    {
        using DrawnLeaf leaf = new DrawnLeaf().WithBite(new Point(350, 22), radius);
        using DrawnLeaf whole = new();
        using ChewMap map = ChewFinder.Find(leaf.Mask, new ChewOptions());
        Assert.Equal(1, map.BiteCount);
        double truth = Cv2.CountNonZero(whole.Mask) - Cv2.CountNonZero(leaf.Mask);
        Assert.InRange(Cv2.CountNonZero(map.Missing), truth * 0.9, truth * 1.1);
    }

    [Fact]
    public void Regular_teeth_are_no_bites()
    {
        using Mat mask = new(500, 900, MatType.CV_8UC1, Scalar.All(0));
        List<Point> margin = [];
        for (int i = 0; i < 720; i++)
        {
            double angle = i * Math.PI / 360;
            double saw = (i % 24) / 24.0 * 14;
            margin.Add(new Point(450 + (int)((380 + saw) * Math.Cos(angle)), 250 + (int)((190 + saw) * Math.Sin(angle))));
        }

        Cv2.FillPoly(mask, [margin], Scalar.All(255));
        using ChewMap map = ChewFinder.Find(mask, new ChewOptions());
        Assert.Equal(0, map.BiteCount);
    }

    [Fact]
    public void Smooth_lobes_are_no_bites()
    {
        using Mat mask = new(700, 700, MatType.CV_8UC1, Scalar.All(0));
        List<Point> margin = [];
        for (int i = 0; i < 720; i++)
        {
            double angle = i * Math.PI / 360;
            double r = 240 + (50 * Math.Cos(5 * angle));
            margin.Add(new Point(350 + (int)(r * Math.Cos(angle)), 350 + (int)(r * Math.Sin(angle))));
        }

        Cv2.FillPoly(mask, [margin], Scalar.All(255));
        using ChewMap map = ChewFinder.Find(mask, new ChewOptions());
        Assert.Equal(0, Cv2.CountNonZero(map.Missing));
    }

    [Fact]
    public void A_leaf_that_touches_the_frame_shuts_in_no_outside()
    {
        using Mat mask = new(300, 300, MatType.CV_8UC1, Scalar.All(255));
        Cv2.Rectangle(mask, new Rect(0, 100, 60, 60), Scalar.All(0), -1);
        using ChewMap map = ChewFinder.Find(mask, new ChewOptions());
        Assert.Equal(0, map.HoleCount);
    }
}
