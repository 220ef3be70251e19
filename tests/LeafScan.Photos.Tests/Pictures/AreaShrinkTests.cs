using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Photos.Tests.Pictures;

/// <summary>Shrinking by area against OpenCV's: the same to the last bit.</summary>
public sealed class AreaShrinkTests
{
    [Theory]
    [InlineData(4000, 3000, 0.16)]
    [InlineData(4000, 3000, 0.256)]
    [InlineData(3024, 4032, 640.0 / 4032)]
    [InlineData(997, 1013, 0.7072)]
    [InlineData(641, 480, 0.999)]
    [InlineData(333, 77, 0.31)]
    [InlineData(800, 600, 0.5)]
    [InlineData(300, 200, 1.0)]
    [InlineData(65, 40, 0.05)]
    public void A_share_of_the_size_is_OpenCvs(int width, int height, double scale)
    {
        using Mat photo = Noise(width, height, MatType.CV_8UC3);
        using Mat ours = new();
        using Mat theirs = new();
        AreaShrink.Into(photo, ours, scale);
        Cv2.Resize(photo, theirs, default, scale, scale, InterpolationFlags.Area);
        Same(theirs, ours);
    }

    [Theory]
    [InlineData(2828, 1058, 2000, 748)]
    [InlineData(1203, 1207, 300, 301)]
    [InlineData(640, 480, 320, 300)]
    [InlineData(50, 40, 49, 13)]
    [InlineData(40, 30, 80, 60)]
    public void A_size_is_OpenCvs(int width, int height, int toWidth, int toHeight)
    {
        // A part of a larger picture, whose rows do not follow one another in memory.
        using Mat whole = Noise(width + 17, height + 9, MatType.CV_8UC3);
        using Mat photo = new(whole, new Rect(17, 9, width, height));
        using Mat ours = new();
        using Mat theirs = new();
        AreaShrink.Into(photo, ours, new Size(toWidth, toHeight));
        Cv2.Resize(photo, theirs, new Size(toWidth, toHeight), 0, 0, InterpolationFlags.Area);
        Same(theirs, ours);
    }

    [Fact]
    public void Flat_white_stays_white()
    {
        using Mat photo = new(1500, 2000, MatType.CV_8UC3, Scalar.All(255));
        using Mat small = new();
        AreaShrink.Into(photo, small, 0.319);
        Assert.Equal(new Scalar(255, 255, 255, 0), Cv2.Mean(small));
    }

    private static Mat Noise(int width, int height, MatType type)
    {
        Mat noise = new(height, width, type);
        Cv2.SetTheRNG(3);
        Cv2.Randu(noise, Scalar.All(0), Scalar.All(256));
        return noise;
    }

    private static void Same(Mat expected, Mat actual)
    {
        Assert.Equal(expected.Size(), actual.Size());
        Assert.Equal(expected.Type(), actual.Type());
        Assert.Equal(0, Cv2.Norm(expected, actual, NormTypes.INF));
    }
}
