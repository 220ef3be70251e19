using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Specks;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Specks;

// Checked against OpenCV's GaussianBlur over the whole picture.
public class WidthDifferencesTests
{
    [Theory]
    [InlineData(1.2)]
    [InlineData(1.7)]
    [InlineData(2.4)]
    public void Tiles_give_what_Gaussians_over_the_whole_picture_give(double sigma)
    {
        using Mat mask = Ellipse();
        using Mat map = Map(mask);
        using Mat expected = Difference(map, mask, sigma);
        using WidthDifferences differences = new(map, mask);
        using Mat found = differences.At(sigma);
        Assert.InRange(Apart(expected, found, mask), 0, 1e-5);
    }

    [Fact]
    public void Half_the_size_gives_nearly_the_same_for_wide_ones()
    {
        using Mat mask = Ellipse();
        using Mat map = Map(mask);
        using Mat expected = Difference(map, mask, 4.8);
        using WidthDifferences differences = new(map, mask);
        using Mat found = differences.AtHalfSize(4.8);

        // Of marks of strength 1 a disc of its size answers with about 0.3.
        Assert.InRange(Apart(expected, found, mask), 0, 0.03);
    }

    [Fact]
    public void Wider_than_a_tile_may_look_is_refused()
    {
        using Mat mask = Ellipse();
        using Mat map = Map(mask);
        using WidthDifferences differences = new(map, mask);
        Assert.Throws<ArgumentOutOfRangeException>(() => differences.At(2.6));
    }

    // Over the picture's left rim, of a size that no tile divides.
    private static Mat Ellipse()
    {
        Mat mask = new(701, 543, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Ellipse(mask, new Point(230, 350), new Size(260, 330), 0, 0, 360, Scalar.All(255), -1);
        return mask;
    }

    private static Mat Map(Mat mask)
    {
        Random random = new(3);
        Mat map = new(mask.Size(), MatType.CV_32FC1, Scalar.All(0));
        for (int i = 0; i < 400; i++)
        {
            Cv2.Circle(map, new Point(random.Next(mask.Cols), random.Next(mask.Rows)), 1 + random.Next(6), Scalar.All(random.NextDouble()), -1);
        }

        using Mat outside = new();
        Cv2.BitwiseNot(mask, outside);
        map.SetTo(Scalar.All(0), outside);
        return map;
    }

    private static Mat Difference(Mat map, Mat mask, double sigma)
    {
        using Mat weight = MaskedBlur.Weights(mask);
        Mat near = MaskedBlur.Gaussian(map, weight, sigma);
        using Mat far = MaskedBlur.Gaussian(map, weight, sigma * 1.6);
        Cv2.Subtract(near, far, near);
        return near;
    }

    private static double Apart(Mat a, Mat b, Mat mask) => Cv2.Norm(a, b, NormTypes.INF, mask);
}
