using Dapper;
using LeafScan.Leaves.Reading;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

/// <summary>Writes one measured leaf: its numbers and, in tables of their own, its shapes and what only a twig or a whole plant has.</summary>
internal static class LeafInsert
{
    public static void Add(SqliteTransaction transaction, long readingId, int ordinal, LeafReading leaf)
    {
        SqliteConnection connection = transaction.Connection!;
        long leafId = connection.QuerySingle<long>(
            """
            INSERT INTO leaf (reading_id, ordinal, area_px, area_mm2, share_sound, share_stippled, share_yellowed, share_browned, share_chewed,
                share_unassessed, damage, damage_low, damage_high, speck_count, speck_density_per_cm2, speck_diameter_median_px, flags)
            VALUES (@readingId, @ordinal, @AreaPx, @AreaMm2, @Sound, @Stippled, @Yellowed, @Browned, @Chewed, @Unassessed, @Damage, @DamageLow,
                @DamageHigh, @SpeckCount, @SpeckDensityPerCm2, @SpeckDiameterMedianPx, @flags)
            RETURNING id
            """,
            new
            {
                readingId,
                ordinal,
                leaf.AreaPx,
                leaf.AreaMm2,
                Sound = WithoutNoise(leaf.Shares.Sound),
                Stippled = WithoutNoise(leaf.Shares.Stippled),
                Yellowed = WithoutNoise(leaf.Shares.Yellowed),
                Browned = WithoutNoise(leaf.Shares.Browned),
                Chewed = WithoutNoise(leaf.Shares.Chewed),
                Unassessed = WithoutNoise(leaf.Shares.Unassessed),
                leaf.Damage,
                leaf.DamageLow,
                leaf.DamageHigh,
                leaf.SpeckCount,
                leaf.SpeckDensityPerCm2,
                leaf.SpeckDiameterMedianPx,
                flags = ShapeText.Of(leaf.Flags),
            },
            transaction);
        connection.Execute(
            "INSERT INTO leaf_shape (leaf_id, outline, speck_centres, causes) VALUES (@leafId, @outline, @specks, @causes)",
            new { leafId, outline = ShapeText.Of(leaf.Outline), specks = ShapeText.Of(leaf.SpeckCentres), causes = ShapeText.Of(leaf.Causes) },
            transaction);
        FoliageRows.Add(transaction, leafId, leaf);
    }

    // A sum of many parts may miss 0 or 1 by a rounding error; anything larger is a fault that the store refuses.
    private static double WithoutNoise(double share) => share switch
    {
        < 0 and > -1e-9 => 0,
        > 1 and < 1 + 1e-9 => 1,
        _ => share,
    };
}
