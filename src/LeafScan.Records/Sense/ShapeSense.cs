using System.Globalization;
using System.Text.Json;
using Dapper;
using LeafScan.Leaves.Reading;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Sense;

/// <summary>Outlines, specks, causes and sectors of a crown: they must be of the form that is written, and lie in their photo.</summary>
internal static class ShapeSense
{
    // An outline rebuilt where a leaf was cut off, or a speck at the edge, may reach a little out of the photo.
    private const double Beyond = 0.1;

    private const int FewestCorners = 3;

    /// <summary>The faults in words.</summary>
    public static IEnumerable<string> Faults(SqliteTransaction transaction)
    {
        foreach (ShapeRow row in transaction.Connection!.Query<ShapeRow>(
            """
            SELECT leaf.id AS Id, outline AS Outline, speck_centres AS Specks, causes AS Causes, width_px AS Width, height_px AS Height, sectors AS Sectors
            FROM leaf_shape JOIN leaf ON leaf.id = leaf_shape.leaf_id JOIN reading ON reading.id = reading_id JOIN photo ON photo.id = photo_id
            LEFT JOIN foliage ON foliage.leaf_id = leaf.id
            """, buffered: false, transaction: transaction))
        {
            string? says =
                !IsReadable(() => IsOutline(row.Outline, row)) ? "has an outline that is none, or lies outside its photo"
                : !IsReadable(() => ShapeText.ReadSpecks(row.Specks).All(speck => IsInside(speck.X, speck.Y, row) && speck.DiameterPx >= 0 && speck.DiameterPx <= Math.Max(row.Width, row.Height)))
                    ? "has specks that are none, or lie outside its photo"
                : !IsReadable(() => ShapeText.ReadCauses(row.Causes).All(cause => cause is { Cause.Length: > 0, Score: >= 0 and <= 1 })) ? "has causes that are none"
                : row.Sectors is not null && !IsReadable(() => AreSectors(row.Sectors)) ? "has sectors of a crown that are none"
                : null;
            if (says is not null)
            {
                yield return SenseCheck.Fault("leaf", row.Id.ToString(CultureInfo.InvariantCulture), says);
            }
        }

        foreach (ShapeRow row in transaction.Connection!.Query<ShapeRow>(
            "SELECT correction.id AS Id, leaf_outline AS Outline, outline AS Drawn, width_px AS Width, height_px AS Height FROM correction JOIN photo ON photo.id = photo_id",
            transaction: transaction))
        {
            if (!IsReadable(() => IsOutline(row.Outline, row) && (row.Drawn is null || IsOutline(row.Drawn, row))))
            {
                yield return SenseCheck.Fault("correction", row.Id.ToString(CultureInfo.InvariantCulture), "has an outline that is none, or lies outside its photo");
            }
        }
    }

    /// <summary>Whether something can be read and is as it should be.</summary>
    public static bool IsReadable(Func<bool> look)
    {
        try
        {
            return look();
        }
        catch (Exception fault) when (fault is JsonException or InvalidOperationException or FormatException or IndexOutOfRangeException or KeyNotFoundException or ArgumentException)
        {
            return false;
        }
    }

    private static bool IsOutline(string text, ShapeRow row)
    {
        IReadOnlyList<PointPx> corners = ShapeText.ReadOutline(text);
        return corners.Count >= FewestCorners && corners.All(corner => IsInside(corner.X, corner.Y, row));
    }

    // One of each part, or the same part would count twice.
    private static bool AreSectors(string text)
    {
        IReadOnlyList<CrownSector> sectors = ShapeText.ReadSectors(text);
        return sectors.Select(sector => (sector.Side, sector.Height)).Distinct().Count() == sectors.Count
            && sectors.All(sector => sector.Side is "left" or "right" && sector.Height is "high" or "middle" or "low"
                && sector.Discoloured is null or (>= 0 and <= 1) && sector.Thinning is >= 0 and <= 1 && sector.Greenness is null or (>= 0 and <= 1));
    }

    private static bool IsInside(double x, double y, ShapeRow row)
    {
        double room = Beyond * Math.Max(row.Width, row.Height);
        return x >= -room && y >= -room && x <= row.Width + room && y <= row.Height + room;
    }

    private sealed class ShapeRow
    {
        public long Id { get; init; }

        public string Outline { get; init; } = "";

        public string? Drawn { get; init; }

        public string Specks { get; init; } = "[]";

        public string Causes { get; init; } = "[]";

        public string? Sectors { get; init; }

        public long Width { get; init; }

        public long Height { get; init; }
    }
}
