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

        AssertFound(whole, eaten, 0.75, 1.3);
    }

    [Fact]
    public void A_wide_eaten_stretch_is_rebuilt_with_the_bulge_of_its_neighbours()
    {
        using Mat whole = Smooth();
        using Mat eaten = whole.Clone();
        Cv2.Ellipse(eaten, new Point(450, 60), new Size(150, 70), 0, 0, 360, Scalar.All(0), -1);
        AssertFound(whole, eaten, 0.9, 1.1);
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

        AssertFound(whole, eaten, 0.9, 1.1);
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

    private static Mat Smooth() => Toothed(0);

    private static Mat Toothed(double tooth)
    {
        Mat mask = new(500, 900, MatType.CV_8UC1, Scalar.All(0));
        Cv2.FillPoly(mask, [Outline(tooth)], Scalar.All(255));
        return mask;
    }

    // An ellipse whose margin rises over ten degrees and falls back at once, as saw teeth do.
    private static Point[] Outline(double tooth)
    {
        Point[] margin = new Point[1440];
        for (int i = 0; i < margin.Length; i++)
        {
            double angle = i * Math.PI / 720;
            double saw = i % 40 / 40.0 * tooth;
            margin[i] = new Point(
                (int)Math.Round(450 + ((HalfLength + saw) * Math.Cos(angle))),
                (int)Math.Round(250 + ((HalfWidth + saw) * Math.Sin(angle))));
        }

        return margin;
    }
}
