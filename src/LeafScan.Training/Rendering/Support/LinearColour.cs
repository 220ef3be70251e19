using LeafScan.Photos.Colour;

namespace LeafScan.Training.Rendering.Support;

/// <summary>A colour in linear light with the primaries of sRGB (IEC 61966-2-1); 1 is a perfect white under the light of the scene.</summary>
/// <param name="R">Red.</param>
/// <param name="G">Green.</param>
/// <param name="B">Blue.</param>
internal readonly record struct LinearColour(float R, float G, float B)
{
    /// <summary>From CIE Lab (CIE 15, white point D65).</summary>
    public static LinearColour FromLab(double lightness, double a, double b)
    {
        double fy = (lightness + 16) / 116;
        double x = 0.95047 * Unbend(fy + (a / 500));
        double y = Unbend(fy);
        double z = 1.08883 * Unbend(fy - (b / 200));
        return new LinearColour(
            (float)Math.Max(0.001, (3.2406 * x) - (1.5372 * y) - (0.4986 * z)),
            (float)Math.Max(0.001, (-0.9689 * x) + (1.8758 * y) + (0.0415 * z)),
            (float)Math.Max(0.001, (0.0557 * x) - (0.2040 * y) + (1.0570 * z)));
    }

    /// <summary>The colour times a number.</summary>
    public LinearColour Times(double factor) => new((float)(R * factor), (float)(G * factor), (float)(B * factor));

    private static double Unbend(double f) => f > 6.0 / 29 ? f * f * f : 3 * 36.0 / 841 * (f - (4.0 / 29));
}

/// <summary>From colours as they look to colours as light.</summary>
internal static class LabSteps
{
    /// <summary>The colour in linear light.</summary>
    public static LinearColour Linear(this LabColour colour) => LinearColour.FromLab(colour.L, colour.A, colour.B);

    /// <summary>The colour moved by the given steps of Lab.</summary>
    public static LabColour Move(this LabColour colour, double l, double a, double b) => new(colour.L + l, colour.A + a, colour.B + b);
}
