using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends;

/// <summary>
/// Gaps and sides of one plant's whole-plant photos of a walk. They are views of one and the same plant and no sample of many, so the
/// interval is that of measuring: the mean of their own ones.
/// </summary>
/// <param name="ViewCount">Photos that count and have them; those from before they were kept have none.</param>
/// <param name="Thinning">Mean share of the crown that is gap, 0..1.</param>
/// <param name="ThinningInterval">Mean of the photos' own intervals.</param>
/// <param name="WorstSides">left, right or none of each photo, in their order; left and right are those of the photo.</param>
/// <param name="WorstHeights">low, middle, high or none of each photo, in their order.</param>
/// <param name="FallColour">Mean share of the foliage in fall colour, 0..1.</param>
public sealed record CrownFigures(
    int ViewCount, double Thinning, Interval ThinningInterval, IReadOnlyList<string> WorstSides, IReadOnlyList<string> WorstHeights, double FallColour)
{
    /// <summary>The side in a word or two: "left", "none", or of several photos "left 2 of 3".</summary>
    public string WorstSideWords
    {
        get
        {
            (string Side, int Count)[] named = [.. WorstSides.Where(side => side != "none").GroupBy(side => side).Select(side => (side.Key, side.Count()))
                .OrderByDescending(side => side.Item2).ThenBy(side => side.Key, StringComparer.Ordinal)];
            return named.Length == 0 ? "none"
                : named[0].Count == WorstSides.Count ? named[0].Side
                : FormattableString.Invariant($"{string.Join(", ", named.Select(side => FormattableString.Invariant($"{side.Side} {side.Count}")))} of {WorstSides.Count}");
        }
    }

    internal static CrownFigures? Of(IReadOnlyList<LeafOnRecord> counting, double level)
    {
        CrownOnRecord[] crowns = [.. counting.Select(view => view.Foliage?.Crown).OfType<CrownOnRecord>()];
        return crowns.Length == 0 ? null : new CrownFigures(
            crowns.Length,
            crowns.Average(crown => crown.Thinning),
            new Interval(crowns.Average(crown => crown.ThinningLow), crowns.Average(crown => crown.ThinningHigh), level),
            [.. crowns.Select(crown => crown.WorstSide)],
            [.. crowns.Select(crown => crown.WorstHeight)],
            crowns.Average(crown => crown.FallColour));
    }
}

/// <summary>Specks on the needles of one plant's twigs of a walk.</summary>
/// <param name="TwigCount">Twigs that count and whose specks per cm are known.</param>
/// <param name="SpecksPerCm">Plain mean over them of specks per cm of needle: a lower bound, as each of them is.</param>
public sealed record NeedleFigures(int TwigCount, double SpecksPerCm)
{
    internal static NeedleFigures? Of(IReadOnlyList<LeafOnRecord> counting)
    {
        double[] known = [.. counting.Select(twig => twig.Foliage?.SpecksPerCmOfNeedle).OfType<double>()];
        return known.Length == 0 ? null : new NeedleFigures(known.Length, known.Average());
    }
}
