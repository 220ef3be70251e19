using OpenCvSharp;

namespace LeafScan.Photos.Colour;

/// <summary>A colour in CIE 1976 L*a*b*, D65.</summary>
/// <param name="L">Lightness, 0..100.</param>
/// <param name="A">Green (negative) to red.</param>
/// <param name="B">Blue (negative) to yellow.</param>
public readonly record struct LabColour(double L, double A, double B)
{
    /// <summary>Lab of an 8-bit sRGB colour, by the same OpenCV conversion that measures whole pictures.</summary>
    public static LabColour FromSrgb(byte red, byte green, byte blue)
    {
        using Mat pixel = new(1, 1, MatType.CV_8UC3, new Scalar(blue, green, red));
        using Mat lab = LabPicture.Of(pixel);
        Vec3f value = lab.At<Vec3f>(0, 0);
        return new LabColour(value.Item0, value.Item1, value.Item2);
    }

    /// <summary>
    /// Colour difference CIEDE2000 with all weights 1, after Sharma, Wu and Dalal (Color Research and Application 30:21, 2005).
    /// About 1 is just seen side by side.
    /// </summary>
    public static double Difference(LabColour first, LabColour second)
    {
        double chromaMean = (Math.Sqrt(Square(first.A) + Square(first.B)) + Math.Sqrt(Square(second.A) + Square(second.B))) / 2;
        double g = 0.5 * (1 - Math.Sqrt(Seventh(chromaMean) / (Seventh(chromaMean) + Seventh(25))));
        double a1 = (1 + g) * first.A;
        double a2 = (1 + g) * second.A;
        double c1 = Math.Sqrt(Square(a1) + Square(first.B));
        double c2 = Math.Sqrt(Square(a2) + Square(second.B));
        double h1 = Hue(a1, first.B);
        double h2 = Hue(a2, second.B);

        double dL = second.L - first.L;
        double dC = c2 - c1;
        double dHue = HueStep(h1, h2, c1 * c2);
        double dH = 2 * Math.Sqrt(c1 * c2) * Math.Sin(Radians(dHue / 2));

        double lMean = (first.L + second.L) / 2;
        double cMean = (c1 + c2) / 2;
        double hMean = HueMean(h1, h2, c1 * c2);
        double t = 1 - (0.17 * Math.Cos(Radians(hMean - 30))) + (0.24 * Math.Cos(Radians(2 * hMean)))
            + (0.32 * Math.Cos(Radians((3 * hMean) + 6))) - (0.20 * Math.Cos(Radians((4 * hMean) - 63)));
        double sL = 1 + (0.015 * Square(lMean - 50) / Math.Sqrt(20 + Square(lMean - 50)));
        double sC = 1 + (0.045 * cMean);
        double sH = 1 + (0.015 * cMean * t);
        double turn = 30 * Math.Exp(-Square((hMean - 275) / 25));
        double rC = 2 * Math.Sqrt(Seventh(cMean) / (Seventh(cMean) + Seventh(25)));
        double rT = -Math.Sin(Radians(2 * turn)) * rC;
        return Math.Sqrt(Square(dL / sL) + Square(dC / sC) + Square(dH / sH) + (rT * (dC / sC) * (dH / sH)));
    }

    private static double Hue(double a, double b)
    {
        if (a == 0 && b == 0)
        {
            return 0;
        }

        double degrees = Math.Atan2(b, a) * 180 / Math.PI;
        return degrees < 0 ? degrees + 360 : degrees;
    }

    private static double HueStep(double h1, double h2, double chromas)
    {
        if (chromas == 0)
        {
            return 0;
        }

        double step = h2 - h1;
        return step > 180 ? step - 360 : step < -180 ? step + 360 : step;
    }

    private static double HueMean(double h1, double h2, double chromas)
    {
        double sum = h1 + h2;
        if (chromas == 0)
        {
            return sum;
        }

        if (Math.Abs(h1 - h2) <= 180)
        {
            return sum / 2;
        }

        return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
    }

    private static double Square(double x) => x * x;

    private static double Seventh(double x) => x * x * x * x * x * x * x;

    private static double Radians(double degrees) => degrees * Math.PI / 180;
}
