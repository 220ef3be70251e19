using LeafScan.Leaves.Outline;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Outline;

/// <summary>Drawn field scenes: soil that is out of focus, one sharp leaf with texture in the middle.</summary>
public class FieldOutlineTests
{
    [Fact]
    public void The_main_leaf_is_found_on_soil()
    {
        using Mat truth = Blank();
        Cv2.Ellipse(truth, new Point(400, 300), new Size(230, 120), 20, 0, 360, Scalar.All(255), -1);
        using Mat photo = Soil();
        Lay(photo, truth);
        using OutlineResult found = OutlineFinder.Find(photo, new OutlineOptions(), CancellationToken.None);
        Assert.Single(found.Leaves);
        Assert.InRange(OutlineScore.Of(found, truth), 0.95, 1);
    }

    [Fact]
    public void A_hole_that_shows_soil_is_left_out()
    {
        using Mat truth = Blank();
        Cv2.Ellipse(truth, new Point(400, 300), new Size(250, 140), 20, 0, 360, Scalar.All(255), -1);
        Cv2.Circle(truth, new Point(330, 290), 28, Scalar.All(0), -1);
        using Mat photo = Soil();
        Lay(photo, truth);
        using OutlineResult found = OutlineFinder.Find(photo, new OutlineOptions(), CancellationToken.None);
        using Mat mask = OutlineScore.Together(found, truth.Size());
        Assert.Equal(0, mask.At<byte>(290, 330));
        Assert.InRange(OutlineScore.Of(found, truth), 0.95, 1);
    }

    [Fact]
    public void A_neighbour_that_touches_the_main_leaf_is_cut_off()
    {
        using Mat truth = Blank();
        Cv2.Ellipse(truth, new Point(380, 300), new Size(200, 120), 0, 0, 360, Scalar.All(255), -1);
        using Mat both = truth.Clone();
        Cv2.Ellipse(both, new Point(680, 380), new Size(120, 60), 30, 0, 360, Scalar.All(255), -1);
        using Mat photo = Soil();
        Lay(photo, both);
        using OutlineResult found = OutlineFinder.Find(photo, new OutlineOptions(), CancellationToken.None);
        Assert.Single(found.Leaves);
        Assert.InRange(OutlineScore.Of(found, truth), 0.93, 1);
    }

    [Fact]
    public void A_leaf_hardly_unlike_all_that_lies_behind_it_is_refused_or_unsure()
    {
        using Mat truth = Blank();
        Cv2.Ellipse(truth, new Point(400, 300), new Size(230, 150), 20, 0, 360, Scalar.All(255), -1);
        using Mat photo = Soil();
        using Mat foliage = new(photo.Size(), MatType.CV_8UC3, new Scalar(60, 129, 70));
        Cv2.AddWeighted(photo, 0.02, foliage, 0.98, 0, photo);
        Lay(photo, truth);
        using OutlineResult found = OutlineFinder.Find(photo, new OutlineOptions(), CancellationToken.None);
        Assert.True(found.WhyNone is not null || found.Leaves.All(l => l.Flags.Contains(Flag.OutlineUnsure.Name)));
    }

    private static Mat Blank() => new(600, 800, MatType.CV_8UC1, Scalar.All(0));

    private static Mat Soil()
    {
        Mat soil = new(600, 800, MatType.CV_8UC3, new Scalar(70, 95, 150));
        using Mat lumps = new(soil.Size(), MatType.CV_16SC1);
        Cv2.SetTheRNG(11);
        Cv2.Randn(lumps, Scalar.All(0), Scalar.All(400));
        Cv2.GaussianBlur(lumps, lumps, default, 9);

        // Lumps are lighter or darker, not of other colours.
        using Mat three = new();
        Cv2.Merge([lumps, lumps, lumps], three);
        Cv2.Add(soil, three, soil, null, (int)MatType.CV_8U);
        return soil;
    }

    // Sharp green tissue with fine texture.
    private static void Lay(Mat photo, Mat where)
    {
        using Mat leaf = new(photo.Size(), MatType.CV_8UC3, new Scalar(60, 130, 70));
        using Mat grain = new(photo.Size(), MatType.CV_16SC1);
        Cv2.SetTheRNG(5);
        Cv2.Randn(grain, Scalar.All(0), Scalar.All(14));
        using Mat three = new();
        Cv2.Merge([grain, grain, grain], three);
        Cv2.Add(leaf, three, leaf, null, (int)MatType.CV_8U);
        leaf.CopyTo(photo, where);
        Cv2.GaussianBlur(photo, photo, default, 0.7);
    }
}
