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

    [Fact]
    public void Bites_and_holes_of_a_large_leaf_are_counted_and_filled_without_a_rim()
    {
        using Mat whole = new(1500, 2600, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Ellipse(whole, new Point(1300, 750), new Size(1200, 620), 0, 0, 360, Scalar.All(255), -1);
        using Mat eaten = whole.Clone();
        foreach (Point bite in (Point[])[new(900, 162), new(1750, 1322)])
        {
            Cv2.Circle(eaten, bite, 90, Scalar.All(0), -1);
        }

        foreach (Point hole in (Point[])[new(700, 700), new(1300, 900), new(1900, 650)])
        {
            Cv2.Circle(eaten, hole, 50, Scalar.All(0), -1);
        }

        using ChewMap map = ChewFinder.Find(eaten, new ChewOptions());
        Assert.Equal(2, map.BiteCount);
        Assert.Equal(3, map.HoleCount);

        // All that is neither leaf nor missing hangs together with the outside.
        using Mat filled = new();
        Cv2.BitwiseOr(eaten, map.Missing, filled);
        Cv2.FloodFill(filled, new Point(0, 0), Scalar.All(255));
        Assert.Equal(filled.Total(), Cv2.CountNonZero(filled));
    }

    [Fact]
    public void The_notch_of_a_heart_shaped_base_is_no_bite()
    {
        using Mat mask = new(900, 900, MatType.CV_8UC1, Scalar.All(0));
        List<Point> margin = [];
        for (int i = 0; i < 1440; i++)
        {
            // The usual heart curve: x = 16 sin^3 t, y = 13 cos t - 5 cos 2t - 2 cos 3t - cos 4t.
            double t = i * Math.PI / 720;
            double x = 16 * Math.Pow(Math.Sin(t), 3);
            double y = (13 * Math.Cos(t)) - (5 * Math.Cos(2 * t)) - (2 * Math.Cos(3 * t)) - Math.Cos(4 * t);
            margin.Add(new Point((int)Math.Round(450 + (24 * x)), (int)Math.Round(420 - (24 * y))));
        }

        Cv2.FillPoly(mask, [margin], Scalar.All(255));
        Cv2.Line(mask, new Point(450, 330), new Point(450, 60), Scalar.All(255), 14);
        using ChewMap map = ChewFinder.Find(mask, new ChewOptions());
        Assert.Equal(0, Cv2.CountNonZero(map.Missing));
    }
}
