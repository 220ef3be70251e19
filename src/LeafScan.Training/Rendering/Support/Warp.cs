using OpenCvSharp;

namespace LeafScan.Training.Rendering.Support;

/// <summary>Takes a sheet into the photo: samples at twice the photo's resolution, then averages four samples to a pixel.</summary>
internal static class Warp
{
    /// <summary>8-bit share of each photo pixel that a mask covers, 255 for all of it.</summary>
    public static Mat Coverage(Mat mask, Mat mapX, Mat mapY, Size size)
    {
        using Mat fine = new();
        Cv2.Remap(mask, fine, mapX, mapY, InterpolationFlags.Linear, BorderTypes.Constant, Scalar.All(0));
        Mat coverage = new();
        Cv2.Resize(fine, coverage, size, 0, 0, InterpolationFlags.Area);
        return coverage;
    }

    /// <summary>Light times cover, and cover, both float, averaged together so that edges carry no fringe.</summary>
    public static (Mat Light, Mat Cover) Light(Mat light, Mat mask, Mat mapX, Mat mapY, Size size)
    {
        using Mat fine = new();
        using Mat cut = new();
        Cv2.Remap(light, fine, mapX, mapY, InterpolationFlags.Linear, BorderTypes.Replicate);
        Cv2.Remap(mask, cut, mapX, mapY, InterpolationFlags.Linear, BorderTypes.Constant, Scalar.All(0));
        using Mat share = new();
        cut.ConvertTo(share, MatType.CV_32FC1, 1 / 255.0);
        using Mat share3 = new();
        Cv2.CvtColor(share, share3, ColorConversionCodes.GRAY2BGR);
        Cv2.Multiply(fine, share3, fine);
        Mat averaged = new();
        Mat cover = new();
        Cv2.Resize(fine, averaged, size, 0, 0, InterpolationFlags.Area);
        Cv2.Resize(share, cover, size, 0, 0, InterpolationFlags.Area);
        return (averaged, cover);
    }
}
