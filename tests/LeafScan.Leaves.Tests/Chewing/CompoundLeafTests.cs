using LeafScan.Leaves.Chewing;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Chewing;

/// <summary>Gaps between leaflets are the leaf's own shape; drawn leaves, whose missing area is known to the pixel.</summary>
public class CompoundLeafTests
{
    [Theory]
    [InlineData(3, 0)]
    [InlineData(3, 8)]
    [InlineData(5, 8)]
    [InlineData(5, 14)]
    public void Gaps_between_fanned_leaflets_are_no_bites(int leaflets, double tooth)
    {
        using Mat leaf = Fanned(leaflets, tooth);
        using ChewMap map = ChewFinder.Find(leaf, new ChewOptions());
        Assert.Equal(0, Cv2.CountNonZero(map.Missing));
    }

    [Theory]
    [InlineData(5)]
    [InlineData(10)]
    public void Gaps_between_feathered_leaflets_with_teeth_are_no_bites(double tooth)
    {
        using Mat leaf = Feathered(tooth);
        using ChewMap map = ChewFinder.Find(leaf, new ChewOptions());
        Assert.Equal(0, Cv2.CountNonZero(map.Missing));
    }

    [Fact]
    public void A_bite_out_of_a_toothed_leaflet_is_found_and_the_gaps_beside_it_are_not()
    {
        using Mat whole = Fanned(3, 8);
        using Mat eaten = whole.Clone();
        Cv2.Circle(eaten, new Point(500, 118), 48, Scalar.All(0), -1);
        using Mat truth = new();
        Cv2.Subtract(whole, eaten, truth);
        using ChewMap map = ChewFinder.Find(eaten, new ChewOptions());
        double area = Cv2.CountNonZero(truth);
        Assert.Equal(1, map.BiteCount);
        Assert.InRange(Cv2.CountNonZero(map.Missing) / area, 0.7, 1.3);
    }

    // Leaflets from one point, as strawberry has three and a horse chestnut five.
    private static Mat Fanned(int leaflets, double tooth)
    {
        Mat mask = new(1000, 1000, MatType.CV_8UC1, Scalar.All(0));
        Point hub = new(500, 560);
        for (int i = 0; i < leaflets; i++)
        {
            double spread = leaflets == 3 ? 95 : 62;
            double towards = (-90 + ((i - ((leaflets - 1) / 2.0)) * spread)) * Math.PI / 180;
            double halfLength = leaflets == 3 ? 220 : 210;
            Point2d centre = new(hub.X + (Math.Cos(towards) * halfLength * 0.97), hub.Y + (Math.Sin(towards) * halfLength * 0.97));
            Leaflet(mask, centre, towards, halfLength, leaflets == 3 ? 150 : 100, tooth);
        }

        Cv2.Line(mask, hub, new Point(500, 900), Scalar.All(255), 9);
        return mask;
    }

    // Leaflets on short stalks, in pairs along a common one and one at its end, as rose and ash have them.
    private static Mat Feathered(double tooth)
    {
        Mat mask = new(1000, 1200, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Line(mask, new Point(40, 500), new Point(900, 500), Scalar.All(255), 10);
        for (int pair = 0; pair < 3; pair++)
        {
            foreach (int side in (int[])[-1, 1])
            {
                double towards = side * 65 * Math.PI / 180;
                Point2d foot = new(250 + (pair * 230), 500 + (side * 40));
                Cv2.Line(mask, new Point(foot.X, 500), new Point(foot.X, foot.Y), Scalar.All(255), 9);
                Point2d centre = new(foot.X + (Math.Cos(towards) * 160), foot.Y + (Math.Sin(towards) * 160));
                Leaflet(mask, centre, towards, 165, 85, tooth);
            }
        }

        Leaflet(mask, new Point2d(1020, 500), 0, 160, 105, tooth);
        return mask;
    }

    private static void Leaflet(Mat mask, Point2d centre, double towards, double halfLength, double halfWidth, double tooth)
    {
        Point[] margin = new Point[1440];
        (double sine, double cosine) = Math.SinCos(towards);
        for (int i = 0; i < margin.Length; i++)
        {
            double angle = i * Math.PI / 720;
            double saw = i % 48 / 48.0 * tooth;
            double x = (halfLength + saw) * Math.Cos(angle);
            double y = (halfWidth + saw) * Math.Sin(angle);
            margin[i] = new Point(
                (int)Math.Round(centre.X + (x * cosine) - (y * sine)),
                (int)Math.Round(centre.Y + (x * sine) + (y * cosine)));
        }

        Cv2.FillPoly(mask, [margin], Scalar.All(255));
    }
}
