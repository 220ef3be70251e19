using LeafScan.Leaves.Specks;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Specks;

/// <summary>Weighted means of 4 x 4 pixels against OpenCV's area averaging of the weighted picture: the same to the last bit.</summary>
public class WeightedQuarterTests
{
    [Theory]
    [InlineData(640, 416)]
    [InlineData(1992, 744)]
    [InlineData(4, 4)]
    public void Means_are_OpenCvs(int width, int height)
    {
        using Mat colours = Noise(width, height, MatType.CV_32FC3, -90, 100);
        using Mat weight = Noise(width, height, MatType.CV_32FC1, 0, 1);
        using Mat three = new();
        using Mat weighted = new();
        Cv2.Merge([weight, weight, weight], three);
        Cv2.Multiply(colours, three, weighted);
        using Mat expected = new();
        using Mat expectedWeight = new();
        Cv2.Resize(weighted, expected, new Size(width / 4, height / 4), 0, 0, InterpolationFlags.Area);
        Cv2.Resize(weight, expectedWeight, new Size(width / 4, height / 4), 0, 0, InterpolationFlags.Area);
        using Mat small = new();
        using Mat smallWeight = new();
        Assert.True(WeightedQuarter.Fits(colours.Size()));
        WeightedQuarter.Into(colours, (y, weights) => LeafScan.Leaves.Baseline.MatRows.AsRow<float>(weight, y).CopyTo(weights), small, smallWeight);
        Assert.Equal(0, Cv2.Norm(expected, small, NormTypes.INF));
        Assert.Equal(0, Cv2.Norm(expectedWeight, smallWeight, NormTypes.INF));
    }

    [Theory]
    [InlineData(642, 416)]
    [InlineData(640, 415)]
    [InlineData(0, 0)]
    public void Other_sizes_do_not_fit(int width, int height) => Assert.False(WeightedQuarter.Fits(new Size(width, height)));

    private static Mat Noise(int width, int height, MatType type, double from, double to)
    {
        Mat noise = new(height, width, type);
        Cv2.SetTheRNG(5);
        Cv2.Randu(noise, Scalar.All(from), Scalar.All(to));
        return noise;
    }
}
