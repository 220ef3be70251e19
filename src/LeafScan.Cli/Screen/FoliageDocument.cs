using LeafScan.Trends;

namespace LeafScan.Cli.Screen;

/// <summary>What only twigs and whole plants have, as documents show it.</summary>
internal static class FoliageDocument
{
    /// <summary>Gaps and sides; null without any.</summary>
    public static object? Of(CrownFigures? crown) => crown is null ? null : new
    {
        views = crown.ViewCount,
        thinning = FigureDocument.Round(crown.Thinning),
        thinningLow = FigureDocument.Round(crown.ThinningInterval.Low),
        thinningHigh = FigureDocument.Round(crown.ThinningInterval.High),
        worstSides = crown.WorstSides,
        worstHeights = crown.WorstHeights,
        fallColour = FigureDocument.Round(crown.FallColour),
    };

    /// <summary>Specks on needles; null without any.</summary>
    public static object? Of(NeedleFigures? needles) => needles is null ? null : new { twigs = needles.TwigCount, specksPerCm = FigureDocument.Round(needles.SpecksPerCm) };
}
