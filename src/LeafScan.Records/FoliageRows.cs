using System.Text.Json;
using Dapper;
using LeafScan.Leaves.Reading;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

/// <summary>Writes and reads what only twigs and whole plants have; for leaves it does nothing and costs nothing.</summary>
internal static class FoliageRows
{
    /// <summary>Columns in the words of <see cref="FoliageRow"/>.</summary>
    public const string Columns = """
        foliage.leaf_id AS FoliageOf, greenness AS Greenness, new_growth AS NewGrowth, healthy_sha256 AS HealthySha256, needle_length_mm AS NeedleLengthMm,
            specks_per_cm_of_needle AS SpecksPerCmOfNeedle, thinning AS Thinning, thinning_low AS ThinningLow, thinning_high AS ThinningHigh,
            worst_side AS WorstSide, worst_height AS WorstHeight, fall_colour AS FallColour, sectors AS Sectors
        """;

    /// <summary>Keeps it, where there is any of it.</summary>
    public static void Add(SqliteTransaction transaction, long leafId, LeafReading leaf)
    {
        if (leaf is { Greenness: null, NewGrowth: null, HealthyPhoto: null, NeedleLengthMm: null, SpecksPerCmOfNeedle: null, Crown: null })
        {
            return;
        }

        transaction.Connection!.Execute(
            """
            INSERT INTO foliage (leaf_id, greenness, new_growth, healthy_sha256, needle_length_mm, specks_per_cm_of_needle, thinning, thinning_low, thinning_high,
                worst_side, worst_height, fall_colour, sectors)
            VALUES (@leafId, @Greenness, @NewGrowth, @HealthyPhoto, @NeedleLengthMm, @SpecksPerCmOfNeedle, @Thinning, @ThinningLow, @ThinningHigh,
                @WorstSide, @WorstHeight, @FallColour, @sectors)
            """,
            new
            {
                leafId,
                leaf.Greenness,
                leaf.NewGrowth,
                leaf.HealthyPhoto,
                leaf.NeedleLengthMm,
                leaf.SpecksPerCmOfNeedle,
                leaf.Crown?.Thinning,
                leaf.Crown?.ThinningLow,
                leaf.Crown?.ThinningHigh,
                leaf.Crown?.WorstSide,
                leaf.Crown?.WorstHeight,
                leaf.Crown?.FallColour,
                sectors = leaf.Crown is { } crown ? ShapeText.Of(crown.Sectors) : null,
            },
            transaction);
    }

    /// <summary>Lays it over rows of twigs and whole plants. Leaves stay as they are, and where there are none but leaves nothing is asked.</summary>
    public static void LayOver(SqliteConnection connection, List<LeafOnRecord> rows)
    {
        long[] ids = [.. rows.Where(row => row.Kind != "leaf").Select(row => row.LeafId)];
        if (ids.Length == 0)
        {
            return;
        }

        Dictionary<long, FoliageOnRecord> kept = connection.Query<FoliageRow>(
            $"SELECT {Columns} FROM foliage WHERE leaf_id IN (SELECT value FROM json_each(@ids))", new { ids = JsonSerializer.Serialize(ids) })
            .ToDictionary(row => row.FoliageOf!.Value, row => row.ToNumbers());
        for (int i = 0; i < rows.Count; i++)
        {
            rows[i] = kept.TryGetValue(rows[i].LeafId, out FoliageOnRecord? foliage) ? rows[i] with { Foliage = foliage } : rows[i];
        }
    }
}

/// <summary>A row as it stands in the store; all null for a leaf.</summary>
internal class FoliageRow
{
    public long? FoliageOf { get; init; }

    public double? Greenness { get; init; }

    public double? NewGrowth { get; init; }

    public string? HealthySha256 { get; init; }

    public double? NeedleLengthMm { get; init; }

    public double? SpecksPerCmOfNeedle { get; init; }

    public double? Thinning { get; init; }

    public double? ThinningLow { get; init; }

    public double? ThinningHigh { get; init; }

    public string? WorstSide { get; init; }

    public string? WorstHeight { get; init; }

    public double? FallColour { get; init; }

    public string? Sectors { get; init; }

    public FoliageOnRecord ToNumbers() => new(
        NeedleLengthMm, SpecksPerCmOfNeedle,
        Thinning is { } thinning ? new CrownOnRecord(thinning, ThinningLow!.Value, ThinningHigh!.Value, WorstSide!, WorstHeight!, FallColour!.Value) : null);

    public CrownReading? ToCrown() => Thinning is not { } thinning ? null : new CrownReading
    {
        Thinning = thinning,
        ThinningLow = ThinningLow!.Value,
        ThinningHigh = ThinningHigh!.Value,
        WorstSide = WorstSide!,
        WorstHeight = WorstHeight!,
        FallColour = FallColour!.Value,
        Sectors = ShapeText.ReadSectors(Sectors!),
    };
}
