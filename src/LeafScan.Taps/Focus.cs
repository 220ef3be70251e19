namespace LeafScan.Taps;

/// <summary>
/// Whether a photo is too little in focus. How many pixels a blur is wide says nothing by itself: what counts is whether
/// small mites still stand out of the paper, so it is judged by the smallest thing that can be seen beside a mite's length.
/// </summary>
internal static class Focus
{
    // Variance, smoothing included, above which the camera is to blame and not the distance: rendered sheets in focus stay below 3.0.
    private const double SharpMost = 3.1;

    // Without a scale it is not known whether the mites are hidden, so that only what is plainly out of focus is refused.
    private const double PlainlySoft = 3.8;

    // Of a usual mite's length. At the first about one mite in ten is lost, at the second one in four (rendered sheets; docs/accuracy.md).
    private const double NoticedShare = 0.4;
    private const double RefusedShare = 0.6;

    // The squared sine of 22.5 degrees.
    private const double AcrossLeft = 0.1464;

    // The long side of an A4 sheet (ISO 216).
    private const double SheetMm = 297;

    /// <summary>True when blur hides some of the small mites.</summary>
    /// <param name="shot">The photo.</param>
    /// <param name="options">Sizes of mites; scale.</param>
    /// <param name="number">Which photo it is among those the options speak of.</param>
    public static bool IsBlurred(TapShot shot, TapOptions options, int number) => IsSoft(shot, SharpMost) && Hides(shot, options, number, NoticedShare);

    /// <summary>True when blur hides so many that a count would mislead.</summary>
    /// <inheritdoc cref="IsBlurred" path="/param" />
    public static bool IsTooBlurred(TapShot shot, TapOptions options, int number) =>
        IsSoft(shot, TapSummary.Scale(shot, options, number) is null ? PlainlySoft : SharpMost) && Hides(shot, options, number, RefusedShare);

    /// <summary>True when so many mites are smaller than what can be seen that a count would mislead, whatever the reason.</summary>
    /// <inheritdoc cref="IsBlurred" path="/param" />
    public static bool HidesTooMany(TapShot shot, TapOptions options, int number) => Hides(shot, options, number, RefusedShare);

    // A smear adds a twelfth of its squared length along its own way; of the four ways looked at one is at most 22.5 degrees off the way across it.
    private static bool IsSoft(TapShot shot, double most)
    {
        double smear = shot.Shake?.LengthPx ?? 0;
        return shot.PointSpread > most + (smear * smear / 12 * AcrossLeft);
    }

    private static bool Hides(TapShot shot, TapOptions options, int number, double share) =>
        TapSummary.SmallestVisible(shot, options) > share * options.UsualMiteMm * (TapSummary.Scale(shot, options, number) ?? Assumed(shot));

    // Without a scale: as if the whole of an A4 or letter sheet were the white that is seen. Whoever is nearer than that is asked for more than needed.
    private static double Assumed(TapShot shot) => Math.Max(shot.WidthPx, shot.HeightPx) * Math.Sqrt(shot.SheetShare) / SheetMm;
}
