using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Baseline;

// Checked against OpenCV's own morphologyEx with its elliptic kernel.
public class RoundKernelTests
{
    [Theory]
    [InlineData(3, 40, 50)]
    [InlineData(5, 131, 203)]
    [InlineData(17, 300, 140)]
    [InlineData(61, 200, 333)]
    [InlineData(61, 20, 25)]
    public void Closing_grey_levels_is_that_of_OpenCV_to_the_pixel(int side, int rows, int cols)
    {
        using Mat grey = Noise(rows, cols, 255);
        using Mat expected = Closed(grey, side);
        using Mat closed = new RoundKernel(side).Close(grey);
        Assert.Equal(0, Cv2.Norm(expected, closed, NormTypes.INF));
    }

    [Theory]
    [InlineData(3)]
    [InlineData(23)]
    [InlineData(61)]
    public void Closing_marks_is_that_of_OpenCV_to_the_pixel_also_beside_the_rim(int side)
    {
        using Mat marks = new(260, 330, MatType.CV_8UC1, Scalar.All(0));
        foreach (Point at in (Point[])[new(5, 90), new(40, 80), new(120, 100), new(150, 110), new(158, 140), new(90, 250)])
        {
            Cv2.Circle(marks, at, 9, Scalar.All(255), -1);
        }

        using Mat expected = Closed(marks, side);
        using Mat closed = new RoundKernel(side).CloseMarks(marks);
        Assert.Equal(0, Cv2.Norm(expected, closed, NormTypes.INF));
    }

    [Fact]
    public void Without_marks_nothing_is_closed()
    {
        using Mat none = new(30, 40, MatType.CV_8UC1, Scalar.All(0));
        using Mat closed = new RoundKernel(9).CloseMarks(none);
        Assert.Equal(0, Cv2.CountNonZero(closed));
    }

    private static Mat Noise(int rows, int cols, int most)
    {
        Random random = new(7);
        Mat noise = new(rows, cols, MatType.CV_8UC1);
        for (int y = 0; y < rows; y++)
        {
            foreach (ref byte level in noise.AsRow<byte>(y))
            {
                level = (byte)random.Next(most);
            }
        }

        return noise;
    }

    private static Mat Closed(Mat bytes, int side)
    {
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(side, side));
        Mat closed = new();
        Cv2.MorphologyEx(bytes, closed, MorphTypes.Close, kernel);
        return closed;
    }
}
