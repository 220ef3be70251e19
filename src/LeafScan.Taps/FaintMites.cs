namespace LeafScan.Taps;

/// <summary>Which part of the mites is too small to be seen: what blur, noise and few pixels cost.</summary>
internal static class FaintMites
{
    // A thing seen as a disc of this width is a body 1.26 times as long: mites are 0.63 times as wide as long.
    private const double LengthOfDisc = 1.26;

    // On one tap all ages walk: half of them are shorter than nine tenths of a usual mite, one in six shorter than seven tenths (own choice).
    private const double Middle = 0.9;
    private const double Spread = 0.2;

    /// <summary>What is taken where no scale says how large a mite is in the photo: that of a mite of about three pixels in focus.</summary>
    public const double ShareUnscaled = 0.07;

    /// <summary>Share of the mites that are smaller than what can be seen, 0..1.</summary>
    /// <param name="smallestVisible">Diameter of the smallest visible disc.</param>
    /// <param name="usualMite">Length of a usual mite, in the same unit.</param>
    public static double Share(double smallestVisible, double usualMite) => Below(((LengthOfDisc * smallestVisible / usualMite) - Middle) / Spread);

    // The normal distribution by the logistic curve nearest to it: off by less than one in a hundred.
    private static double Below(double deviations) => 1 / (1 + Math.Exp(-1.702 * deviations));
}
