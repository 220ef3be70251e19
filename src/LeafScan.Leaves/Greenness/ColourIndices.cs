namespace LeafScan.Leaves.Greenness;

/// <summary>
/// Published figures of how green a colour is. All take 8-bit sRGB values; none looks at what the colour belongs to: grey or
/// brown give a value too, so cut the plant out first.
/// </summary>
public static class ColourIndices
{
    /// <summary>
    /// Dark green colour index after Karcher and Richardson (2003, Crop Science 43:943-951): the mean of
    /// (hue - 60°) / 60°, 1 - saturation and 1 - brightness; 0 very yellow, 1 dark green. The hue is held between 60° and
    /// 120°, the range for which the index was made.
    /// </summary>
    /// <param name="red">0 to 255.</param>
    /// <param name="green">0 to 255.</param>
    /// <param name="blue">0 to 255.</param>
    public static double DarkGreen(double red, double green, double blue)
    {
        (double hue, double saturation, double brightness) = Hsb(red, green, blue);
        return (((Math.Clamp(hue, 60, 120) - 60) / 60) + (1 - saturation) + (1 - brightness)) / 3;
    }

    /// <summary>Excess green after Woebbecke and others (1995): 2g - r - b of each channel's share of the sum; -1 to 2, 0 for black.</summary>
    public static double ExcessGreen(double red, double green, double blue)
    {
        double sum = red + green + blue;
        return sum <= 0 ? 0 : ((2 * green) - red - blue) / sum;
    }

    /// <summary>Green against red (Tucker 1979): (g - r) / (g + r), -1 to 1; 0 where both are 0.</summary>
    public static double GreenAgainstRed(double red, double green) => green + red <= 0 ? 0 : (green - red) / (green + red);

    /// <summary>Visible atmospherically resistant index (Gitelson and others 2002): (g - r) / (g + r - b); null where the divisor is 0.</summary>
    public static double? AtmosphericallyResistant(double red, double green, double blue)
    {
        double divisor = green + red - blue;
        return Math.Abs(divisor) < 1e-9 ? null : (green - red) / divisor;
    }

    /// <summary>Green leaf index (Louhaichi and others 2001): (2g - r - b) / (2g + r + b), -1 to 1; 0 for black.</summary>
    public static double GreenLeaf(double red, double green, double blue)
    {
        double sum = (2 * green) + red + blue;
        return sum <= 0 ? 0 : ((2 * green) - red - blue) / sum;
    }

    // Hue in degrees 0 to 360, saturation and brightness 0 to 1: the hexagonal model of Smith (1978).
    private static (double Hue, double Saturation, double Brightness) Hsb(double red, double green, double blue)
    {
        double most = Math.Max(red, Math.Max(green, blue));
        double range = most - Math.Min(red, Math.Min(green, blue));
        double hue = range <= 0 ? 0
            : most == red ? 60 * ((green - blue) / range)
            : most == green ? 60 * (2 + ((blue - red) / range))
            : 60 * (4 + ((red - green) / range));
        return (hue < 0 ? hue + 360 : hue, most <= 0 ? 0 : range / most, most / 255);
    }
}
