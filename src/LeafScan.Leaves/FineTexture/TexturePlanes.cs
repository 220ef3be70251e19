using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.FineTexture;

/// <summary>
/// Colour planes of a small leaf and differences of their Gaussian means over the leaf alone (band-pass; Burt and Adelson
/// 1983). Owns its pictures.
/// </summary>
internal sealed class TexturePlanes : IDisposable
{
    private readonly Mat _weight;

    /// <summary>Planes of a picture.</summary>
    /// <param name="bgr">8-bit B, G, R, sRGB.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    public TexturePlanes(Mat bgr, Mat mask)
    {
        _weight = MaskedBlur.Weights(mask);
        using ColourRatios ratios = ColourRatios.Of(bgr);
        RedToGreen = ratios.RedToGreen.Clone();
        BlueToGreen = ratios.BlueToGreen.Clone();
        using Mat unit = new();
        bgr.ConvertTo(unit, MatType.CV_32FC3, 1 / 255.0);
        using Mat lab = new();
        Cv2.CvtColor(unit, lab, ColorConversionCodes.BGR2Lab);
        Mat[] parts = Cv2.Split(lab);
        Lightness = parts[0];
        Chroma = new Mat();
        Yellowness = new Mat();
        Cv2.CartToPolar(parts[1], parts[2], Chroma, Yellowness, true);

        // A hue angle falls from green (about 130) over yellow (90) to red (0): turned round, more is yellower.
        Cv2.Subtract(Scalar.All(180), Yellowness, Yellowness);
        parts[1].Dispose();
        parts[2].Dispose();
    }

    /// <summary>ln(R/G).</summary>
    public Mat RedToGreen { get; }

    /// <summary>ln(B/G).</summary>
    public Mat BlueToGreen { get; }

    /// <summary>L* of CIE Lab, 0..100.</summary>
    public Mat Lightness { get; }

    /// <summary>Chroma of CIE Lab.</summary>
    public Mat Chroma { get; }

    /// <summary>180 minus the hue angle of CIE Lab, in degrees.</summary>
    public Mat Yellowness { get; }

    /// <summary>Mean over the leaf about each pixel.</summary>
    public Mat Mean(Mat plane, double sigmaPx) => MaskedBlur.Gaussian(plane, _weight, sigmaPx);

    /// <summary>Detail between two sizes.</summary>
    public Mat Band(Mat plane, double finePx, double coarsePx)
    {
        Mat fine = Mean(plane, finePx);
        using Mat coarse = Mean(plane, coarsePx);
        Cv2.Subtract(fine, coarse, fine);
        return fine;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        _weight.Dispose();
        RedToGreen.Dispose();
        BlueToGreen.Dispose();
        Lightness.Dispose();
        Chroma.Dispose();
        Yellowness.Dispose();
    }
}
