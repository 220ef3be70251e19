using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Outline;

public class OutlineFinderTests
{
    [Theory]
    [InlineData(120)]
    [InlineData(700)]
    [InlineData(2400)]
    public void A_leaf_on_a_sheet_is_found_at_any_size(int width)
    {
        using DrawnLeaf leaf = new DrawnLeaf(width, width / 2).Photographed();
        using OutlineResult result = OutlineFinder.Find(leaf.Pixels, new OutlineOptions());
        FoundLeaf found = Assert.Single(result.Leaves);
        Assert.True(Overlap(found, leaf.Mask) > (width < 200 ? 0.9 : 0.985), $"{Overlap(found, leaf.Mask)}");
        Assert.Equal(width < 200 ? ["leafTooSmall"] : [], found.Flags);
    }

    [Fact]
    public void Several_leaves_on_one_sheet_are_found_largest_first()
    {
        using Mat sheet = Sheet(1200, 900);
        Cv2.Ellipse(sheet, new Point(300, 300), new Size(200, 110), 20, 0, 360, DrawnLeaf.Green, -1);
        Cv2.Ellipse(sheet, new Point(850, 350), new Size(150, 80), 80, 0, 360, DrawnLeaf.Green, -1);
        Cv2.Ellipse(sheet, new Point(500, 720), new Size(120, 70), 0, 0, 360, DrawnLeaf.Brown, -1);
        using OutlineResult result = OutlineFinder.Find(sheet, new OutlineOptions());
        Assert.Equal(3, result.Leaves.Count);
        Assert.Equal([0, 1, 2], result.Leaves.Select((l, i) => (Area: Cv2.CountNonZero(l.Mask), i)).OrderByDescending(l => l.Area).Select(l => l.i));
    }

    [Fact]
    public void A_hard_shadow_beside_the_leaf_is_not_leaf()
    {
        using Mat sheet = Sheet(1000, 700);
        using Mat truth = new(700, 1000, MatType.CV_8UC1, Scalar.All(0));
        using Mat shadow = new(700, 1000, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Ellipse(truth, new Point(480, 340), new Size(250, 140), 15, 0, 360, Scalar.All(255), -1);
        Cv2.Ellipse(shadow, new Point(520, 385), new Size(250, 140), 15, 0, 360, Scalar.All(255), -1);
        using Mat dark = new();
        sheet.ConvertTo(dark, -1, 0.35);
        dark.CopyTo(sheet, shadow);
        sheet.SetTo(DrawnLeaf.Green, truth);
        using OutlineResult result = OutlineFinder.Find(sheet, new OutlineOptions());
        Assert.True(Overlap(Assert.Single(result.Leaves), truth) > 0.97);
    }

    [Fact]
    public void A_hole_is_background_and_shine_is_leaf()
    {
        using DrawnLeaf leaf = new DrawnLeaf(900, 500).WithBite(new Point(300, 250), 28);
        Cv2.Circle(leaf.Pixels, new Point(600, 250), 24, Scalar.All(255), -1);
        leaf.Photographed();
        using OutlineResult result = OutlineFinder.Find(leaf.Pixels, new OutlineOptions());
        FoundLeaf found = Assert.Single(result.Leaves);
        Assert.Equal(0, found.Mask.At<byte>(250 - found.Box.Y, 300 - found.Box.X));
        Assert.True(Overlap(found, leaf.Mask) > 0.98);
    }

    [Fact]
    public void A_leaf_that_runs_out_of_the_frame_says_so()
    {
        using Mat sheet = Sheet(800, 600);
        Cv2.Ellipse(sheet, new Point(0, 300), new Size(300, 120), 0, 0, 360, DrawnLeaf.Green, -1);
        using OutlineResult result = OutlineFinder.Find(sheet, new OutlineOptions());
        Assert.Contains("leafCutOff", Assert.Single(result.Leaves).Flags);
    }

    [Theory]
    [InlineData("paper")]
    [InlineData("wall")]
    public void Without_a_leaf_there_is_a_reason_and_advice(string what)
    {
        using Mat picture = Sheet(800, 600);
        if (what == "wall")
        {
            picture.SetTo(new Scalar(70, 90, 160));
            using Mat grain = new(picture.Size(), MatType.CV_8UC3);
            Cv2.Randu(grain, Scalar.All(0), Scalar.All(40));
            Cv2.Add(picture, grain, picture);
        }

        using OutlineResult result = OutlineFinder.Find(picture, new OutlineOptions());
        Assert.Empty(result.Leaves);
        Assert.NotEmpty(result.WhyNone!);
        Assert.NotEmpty(result.Advice!);
    }

    /// <summary>Source: cut-outs published with the PlantVillage photos (Hughes and Salathe 2015), made by the data set's authors.</summary>
    [SharedPhotosFact]
    public void Healthy_strawberry_leaves_have_the_outline_of_their_published_cut_outs()
    {
        List<double> overlaps = [];
        foreach (string file in Directory.GetFiles(Path.Combine(SharedPhotos.Folder!, "photos", "strawberry-leaves"), "*healthy*.cutout.jpg"))
        {
            using Mat cutout = Cv2.ImRead(file, ImreadModes.Grayscale);
            using Mat truth = new();
            Cv2.Threshold(cutout, truth, 14, 255, ThresholdTypes.Binary);
            using Mat photo = Cv2.ImRead(file.Replace(".cutout.jpg", ".jpg", StringComparison.Ordinal));
            using OutlineResult result = OutlineFinder.Find(photo, new OutlineOptions());
            overlaps.Add(result.Leaves.Count > 0 ? Overlap(result.Leaves[0], truth) : 0);
        }

        Assert.NotEmpty(overlaps);
        overlaps.Sort();
        Assert.True(overlaps[overlaps.Count / 2] >= 0.95, $"median {overlaps[overlaps.Count / 2]}");
        Assert.True(overlaps[overlaps.Count / 10] >= 0.93, $"10th percentile {overlaps[overlaps.Count / 10]}");
    }

    private static Mat Sheet(int width, int height)
    {
        Mat sheet = new(height, width, MatType.CV_8UC3, new Scalar(228, 230, 233));
        using Mat grain = new(sheet.Size(), MatType.CV_8UC3);
        Cv2.Randu(grain, Scalar.All(0), Scalar.All(8));
        Cv2.Add(sheet, grain, sheet);
        return sheet;
    }

    private static double Overlap(FoundLeaf found, Mat truth)
    {
        using Mat whole = new(truth.Size(), MatType.CV_8UC1, Scalar.All(0));
        using (Mat view = new(whole, found.Box))
        {
            found.Mask.CopyTo(view);
        }

        using Mat both = new();
        using Mat either = new();
        Cv2.BitwiseAnd(whole, truth, both);
        Cv2.BitwiseOr(whole, truth, either);
        return Cv2.CountNonZero(both) / (double)Cv2.CountNonZero(either);
    }
}
