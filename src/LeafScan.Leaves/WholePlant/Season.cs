using System.Globalization;
using LeafScan.Photos;

namespace LeafScan.Leaves.WholePlant;

/// <summary>What the date says about colour that is spread evenly.</summary>
/// <param name="MayBeFallColour">Most of the plant is evenly discoloured in a month of fall colour.</param>
/// <param name="MonthName">Month of the photo in words; empty when unknown.</param>
internal readonly record struct Season(bool MayBeFallColour, string MonthName)
{
    private const double MostOfPlant = 0.5;
    private const double EvenBelow = 0.35;

    /// <summary>Reads it. Months are those of the northern temperate zone, September to November (common practice).</summary>
    /// <param name="taken">When the photo was taken; null when unknown: then nothing is put down to the season.</param>
    /// <param name="damage">Discoloured share of the foliage.</param>
    /// <param name="patchiness">See <see cref="CrownSectors.Patchiness"/>.</param>
    public static Season Of(CaptureTime? taken, double damage, double patchiness) => taken is not { } time
        ? new Season(false, string.Empty)
        : new Season(time.Local.Month is >= 9 and <= 11 && damage >= MostOfPlant && patchiness < EvenBelow, time.Local.ToString("MMMM", CultureInfo.InvariantCulture));
}
