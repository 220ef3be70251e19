using System.Runtime.InteropServices;
using Microsoft.ML.Data;
using OpenCvSharp;

namespace LeafScan.Leaves.Kinds;

/// <summary>The small copy of a photo that the photo-kind model looks at.</summary>
internal static class KindPicture
{
    /// <summary>Width and height of the copy in pixels, whatever the photo's own shape: the pipeline's columns have one size.</summary>
    public const int SidePx = 224;

    /// <summary>Copies a photo. The pixels come from our own decoder; the image library behind the pipeline never sees a file.</summary>
    /// <param name="bgr">8-bit B, G, R; any size from one pixel up.</param>
    public static MLImage Of(Mat bgr)
    {
        using Mat fewer = Thinned(bgr);
        using Mat small = new();
        Cv2.Resize(fewer, small, new Size(SidePx, SidePx), 0, 0, InterpolationFlags.Area);
        using Mat four = new();
        Cv2.CvtColor(small, four, ColorConversionCodes.BGR2BGRA);
        byte[] bytes = new byte[four.Total() * 4];
        Marshal.Copy(four.Data, bytes, 0, bytes.Length);
        return MLImage.CreateFromPixels(SidePx, SidePx, MLPixelFormat.Bgra32, bytes);
    }

    // Averaging twelve megapixels costs 30 ms; single pixels of a grid four times as fine as the copy do as well, being averaged then.
    private static Mat Thinned(Mat bgr)
    {
        Size most = new(Math.Min(bgr.Cols, 4 * SidePx), Math.Min(bgr.Rows, 4 * SidePx));
        Mat fewer = new();
        Cv2.Resize(bgr, fewer, most, 0, 0, InterpolationFlags.Nearest);
        return fewer;
    }
}
