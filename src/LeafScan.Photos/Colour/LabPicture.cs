using OpenCvSharp;

namespace LeafScan.Photos.Colour;

/// <summary>Pictures in CIE 1976 L*a*b*, D65.</summary>
public static class LabPicture
{
    private static readonly float[] Linear = BuildTable();

    /// <summary>Converts an 8-bit B, G, R picture in sRGB to 32-bit float L (0..100), a, b.</summary>
    /// <remarks>
    /// The transfer curve is undone by a table and only then is OpenCV asked: its direct way from sRGB interpolates in a
    /// coarse lattice and is off by up to 0.2 in L.
    /// </remarks>
    public static Mat Of(Mat bgr)
    {
        Mat lab = new();
        Into(bgr, lab);
        return lab;
    }

    /// <summary>The same into a picture, or part of a picture, that is there already.</summary>
    /// <param name="bgr">8-bit B, G, R, sRGB.</param>
    /// <param name="lab">Receives L (0..100), a, b; a picture of another size or kind is made anew.</param>
    public static void Into(Mat bgr, Mat lab)
    {
        using Mat table = Mat.FromPixelData(1, 256, MatType.CV_32FC1, Linear);
        Cv2.LUT(bgr, table, lab);
        Cv2.CvtColor(lab, lab, ColorConversionCodes.LBGR2Lab);
    }

    /// <summary>Converts an 8-bit B, G, R picture in sRGB to 32-bit float linear light, 0..1 per channel.</summary>
    public static Mat LinearLight(Mat bgr)
    {
        using Mat table = Mat.FromPixelData(1, 256, MatType.CV_32FC1, Linear);
        Mat linear = new();
        Cv2.LUT(bgr, table, linear);
        return linear;
    }

    // IEC 61966-2-1.
    private static float[] BuildTable()
    {
        float[] table = new float[256];
        for (int i = 0; i < 256; i++)
        {
            double c = i / 255.0;
            table[i] = (float)(c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4));
        }

        return table;
    }
}
