namespace LeafScan.Records.Sense;

/// <summary>
/// What the figures of a twig or a whole plant may not be. Shares outside 0..1, unknown sides and a crown with half of its figures are
/// refused by the layout itself.
/// </summary>
internal static class FoliageRules
{
    // All needles of one photo: a kilometre of them is another unit. Our own choice.
    private const string LongestMm = "1000000";

    private const string Reading = "FROM leaf JOIN reading ON reading.id = reading_id WHERE leaf.id = leaf_id";

    /// <summary>All of them.</summary>
    public static IEnumerable<SenseRule> All =>
    [
        new("foliage", "is of neither a twig nor a whole plant", $"(SELECT kind {Reading}) NOT IN ('twig', 'plant')"),
        new("foliage", "has a crown without being a whole plant's", $"thinning IS NOT NULL AND (SELECT kind {Reading}) <> 'plant'"),
        new("foliage", "has gaps outside their own interval", "thinning NOT BETWEEN thinning_low - 1e-6 AND thinning_high + 1e-6"),
        new("foliage", "has needles without being a twig's, or without a scale",
            $"coalesce(needle_length_mm, specks_per_cm_of_needle) IS NOT NULL AND (SELECT kind <> 'twig' OR pixels_per_mm IS NULL {Reading})"),
        new("foliage", "has longer needles than fit into a photo", $"needle_length_mm > {LongestMm}"),
        new("foliage", "has specks per cm of needle that its count and needles do not give",
            $"specks_per_cm_of_needle IS NOT NULL AND (needle_length_mm IS NULL OR specks_per_cm_of_needle * needle_length_mm / 10 * (SELECT 1 - share_unassessed {Reading}) "
            + $"NOT BETWEEN 0.9 * (SELECT speck_count {Reading}) - 1 AND 1.1 * (SELECT speck_count {Reading}) + 1)"),
    ];
}
