using LeafScan.Leaves.Chewing;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Chewing;

/// <summary>Long, wide and shallow eaten stretches on drawn leaves, whose missing area is known to the pixel.</summary>
public class EatenMarginTests
{
    private const double HalfLength = 380;
    private const double HalfWidth = 190;

    [Fact]
    public void A_bite_in_a_toothed_margin_is_told_from_the_teeth()
    {
        using Mat whole = Toothed(15);
        using Mat eaten = whole.Clone();
        Cv2.Circle(eaten, new Point(450, 66), 40, Scalar.All(0), -1);
        AssertFound(whole, eaten, 0.75, 1.25);
    }

    [Fact]
    public void Bites_side_by_side_in_a_toothed_margin_are_rebuilt_as_one_stretch()
    {
        using Mat whole = Toothed(15);
        using Mat eaten = whole.Clone();
        for (int i = 0; i < 4; i++)
        {
            Cv2.Circle(eaten, new Point(360 + (i * 50), 64), 38, Scalar.All(0), -1);
        }

        AssertFound(whole, eaten, 0.7, 1.25);
    }

    [Fact]
    public void A_wide_eaten_stretch_is_rebuilt_with_the_bulge_of_its_neighbours()
    {
        using Mat whole = Smooth();
        using Mat eaten = whole.Clone();
        Cv2.Ellipse(eaten, new Point(450, 60), new Size(150, 70), 0, 0, 360, Scalar.All(0), -1);
        AssertFound(whole, eaten, 0.85, 1.15);
    }

    [Fact]
    public void Scallops_of_many_bites_beside_each_other_are_one_wide_bite()
    {
        using Mat whole = Smooth();
        using Mat eaten = whole.Clone();
        for (int i = 0; i < 5; i++)
        {
            Cv2.Circle(eaten, new Point(370 + (i * 40), 80), 36, Scalar.All(0), -1);
        }

        AssertFound(whole, eaten, 0.85, 1.15);
    }

    [Theory]
    [InlineData(6)]
    [InlineData(10)]
    [InlineData(15)]
    [InlineData(22)]
    public void Teeth_of_any_size_are_spared(double depth)
    {
        using Mat whole = Toothed(depth);
        using ChewMap map = ChewFinder.Find(whole, new ChewOptions());
        Assert.Equal(0, Cv2.CountNonZero(map.Missing));
    }

    [Fact]
    public void Gaps_between_toothed_leaflets_are_spared()
    {
        using Mat mask = new(900, 900, MatType.CV_8UC1, Scalar.All(0));
        foreach (double turn in new[] { -90.0, 20, 160 })
        {
            double radians = turn * Math.PI / 180;
            Cv2.FillPoly(mask, [Outline(new Point2d(450 + (190 * Math.Cos(radians)), 520 + (190 * Math.Sin(radians))), 200, 105, 10, radians)], Scalar.All(255));
        }

        using ChewMap map = ChewFinder.Find(mask, new ChewOptions());
        Assert.InRange(Cv2.CountNonZero(map.Missing), 0, 0.003 * Cv2.CountNonZero(mask));
    }

    [Fact]
    public void A_straight_cut_is_flagged_and_not_rebuilt()
    {
        using Mat mask = Smooth();
        Cv2.Rectangle(mask, new Rect(640, 0, 260, 500), Scalar.All(0), -1);
        using ChewMap map = ChewFinder.Find(mask, new ChewOptions());
        Assert.True(map.StraightCut);
        Assert.Equal(0, Cv2.CountNonZero(map.Missing));
    }

    private static void AssertFound(Mat whole, Mat eaten, double low, double high)
    {
        using ChewMap map = ChewFinder.Find(eaten, new ChewOptions());
        using Mat truth = new();
        Cv2.Subtract(whole, eaten, truth);
        using Mat both = new();
        Cv2.BitwiseAnd(truth, map.Missing, both);
        double area = Cv2.CountNonZero(truth);
        Assert.InRange(Cv2.CountNonZero(map.Missing) / area, low, high);
        Assert.InRange(Cv2.CountNonZero(both) / area, low, 1);
    }

    private static Mat Smooth() => Drawn(0);

    private static Mat Toothed(double depth) => Drawn(depth);

    private static Mat Drawn(double tooth)
    {
        Mat mask = new(500, 900, MatType.CV_8UC1, Scalar.All(0));
        Cv2.FillPoly(mask, [Outline(new Point2d(450, 250), HalfLength, HalfWidth, tooth, 0)], Scalar.All(255));
        return mask;
    }

    // An ellipse whose margin rises over ten degrees and falls back at once, as saw teeth do.
    private static Point[] Outline(Point2d centre, double halfLength, double halfWidth, double tooth, double turn)
    {
        List<Point> margin = [];
        for (int i = 0; i < 1440; i++)
        {
            double angle = i * Math.PI / 720;
            double saw = i % 40 / 40.0 * tooth;
            double x = (halfLength + saw) * Math.Cos(angle);
            double y = (halfWidth + saw) * Math.Sin(angle);
            margin.Add(new Point(
                (int)Math.Round(centre.X + (x * Math.Cos(turn)) - (y * Math.Sin(turn))),
                (int)Math.Round(centre.Y + (x * Math.Sin(turn)) + (y * Math.Cos(turn)))));
        }

        return margin.ToArray();
    }
}
