using LeafScan.Frame;
using LeafScan.Frame.Sheets;
using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Outline;

/// <summary>Where the edge is drawn, beside ellipses whose area is known from their axes.</summary>
public sealed class EdgePlaceTests
{
    // Lens blur and pixels mix light, not sRGB levels (IEC 61966-2-1 for the curve): a white sheet outshines a dark leaf at its edge.
    [Theory]
    [InlineData(0.03, 0.1, 0.02, 0.82, 0.84, 0.86, 1.0)]
    [InlineData(0.06, 0.16, 0.04, 0.82, 0.84, 0.86, 2.0)]
    [InlineData(0.30, 0.32, 0.06, 0.82, 0.84, 0.86, 1.5)]
    [InlineData(0.05, 0.14, 0.04, 0.35, 0.36, 0.36, 1.0)]
    [InlineData(0.05, 0.14, 0.04, 0.60, 0.55, 0.40, 1.0)]
    public void A_leaf_has_its_true_area_whatever_it_lies_on(double r, double g, double b, double paperR, double paperG, double paperB, double blurPx)
    {
        using Mat photo = Ellipse(new Size(700, 310), new Scalar(b, g, r), new Scalar(paperB, paperG, paperR), blurPx, out double truth);
        using OutlineResult found = OutlineFinder.Find(photo, new OutlineOptions());
        double area = Cv2.CountNonZero(Assert.Single(found.Leaves).Mask);
        Assert.InRange(truth / (Math.PI * 700 * 310), 0.998, 1.002);
        Assert.InRange((area / truth) - 1, -0.006, 0.006);
    }

    [Fact]
    public void On_a_scale_sheet_leaves_of_half_a_square_centimetre_count()
    {
        OutlineOptions options = new();
        ScaleSheet sheet = ScaleSheet.Of(PaperSize.A4, SheetSide.Leaf);
        SheetView View(int markers) => new(sheet, PlaneMap.Turn(0, 9), PrintedScale.True) { MarkersSeen = [.. Enumerable.Range(0, markers)], ResidualMm = 0, ScaleUncertainty = 0 };
        Size photo = new(2200, 3000);
        OutlineOptions near = LeafScale.Search(options, new FrameReading { Sheet = View(3) }, photo);
        Assert.Equal(options.LeastLeafMm2 * 81 / (2200.0 * 3000), near.LeastLeafShare, 9);
        Assert.Equal(options, LeafScale.Search(options, new FrameReading { Sheet = View(2) }, photo));
        Assert.Equal(options, LeafScale.Search(options, FrameReading.Nothing, photo));
    }

    private static Mat Ellipse(Size half, Scalar leaf, Scalar paper, double blurPx, out double areaPx)
    {
        const int Fine = 4;
        using Mat large = new(1000 * Fine, 1800 * Fine, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Ellipse(large, new Point(900 * Fine, 500 * Fine), new Size(half.Width * Fine, half.Height * Fine), 12, 0, 360, Scalar.All(255), -1);
        using Mat share = new();
        Cv2.Resize(large, share, new Size(1800, 1000), 0, 0, InterpolationFlags.Area);
        share.ConvertTo(share, MatType.CV_32FC1, 1 / 255.0);
        areaPx = Cv2.Sum(share).Val0;
        using Mat share3 = new();
        Cv2.Merge([share, share, share], share3);
        using Mat light = new(share.Size(), MatType.CV_32FC3, paper);
        using Mat step = new();
        Cv2.Multiply(share3, new Scalar(leaf.Val0 - paper.Val0, leaf.Val1 - paper.Val1, leaf.Val2 - paper.Val2), step);
        Cv2.Add(light, step, light);
        Cv2.GaussianBlur(light, light, default, blurPx);
        Cv2.Pow(light, 1 / 2.4, light);
        light.ConvertTo(light, -1, 1.055 * 255, -0.055 * 255);
        using Mat noise = new(light.Size(), MatType.CV_32FC3);
        Cv2.SetTheRNG(7);
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(2));
        Cv2.Add(light, noise, light);
        Mat photo = new();
        light.ConvertTo(photo, MatType.CV_8UC3);
        return photo;
    }
}
