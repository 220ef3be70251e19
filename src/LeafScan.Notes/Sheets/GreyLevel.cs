namespace LeafScan.Notes.Sheets;

/// <summary>sRGB level of a neutral grey.</summary>
internal static class GreyLevel
{
    /// <summary>From CIE L* (CIE 15:2004, D65 white) to the level that shows it (IEC 61966-2-1).</summary>
    /// <param name="lightness">L*, 0 to 100.</param>
    public static byte Of(double lightness)
    {
        double f = (lightness + 16) / 116;
        double luminance = lightness > 8 ? f * f * f : lightness * 27 / 24389;
        double encoded = luminance <= 0.0031308 ? 12.92 * luminance : (1.055 * Math.Pow(luminance, 1 / 2.4)) - 0.055;
        return (byte)Math.Round(Math.Clamp(encoded, 0, 1) * 255);
    }
}
