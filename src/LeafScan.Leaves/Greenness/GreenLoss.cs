using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>
/// How much green each pixel has lost against the plant's own sound colour: the rise of ln(R/G), less what white light
/// mirrored on a needle would explain. Mirrored light moves a colour towards neutral, R and B alike; a bleached, yellow or
/// dead spot gains red without that much blue. Fresh growth gains neither: it only loses blue.
/// </summary>
internal static class GreenLoss
{
    // Beyond this slope a small blue difference would explain away any loss.
    private const double SteepestShine = 1.2;

    /// <summary>The loss, ln units, 32-bit float; about 0 on sound foliage, 0.2 at a pale speck, 0.5 where yellow, 0.8 and more where dead.</summary>
    public static Mat Of(ColourPlanes planes, OwnGreen own)
    {
        double slope = own.BlueToGreen < -0.1 ? Math.Min(SteepestShine, -own.RedToGreen / -own.BlueToGreen) : 0;
        (float red, float blue, float shine) = ((float)own.RedToGreen, (float)own.BlueToGreen, (float)Math.Max(0, slope));
        Mat loss = new(planes.Size, MatType.CV_32FC1);
        int rows = loss.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> rg = planes.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> bg = planes.BlueToGreen.AsRow<float>(y);
            Span<float> to = loss.AsRow<float>(y);
            for (int x = 0; x < to.Length; x++)
            {
                to[x] = rg[x] - red - (shine * Math.Max(0, bg[x] - blue));
            }
        }

        return loss;
    }
}
