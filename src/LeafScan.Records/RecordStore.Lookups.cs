using Dapper;
using LeafScan.Leaves.Reading;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>The plant of this number; null when there is none.</summary>
    public Plant? FindPlant(long plantId)
        => Read(connection => connection.QuerySingleOrDefault<Row.OfPlant>($"{Row.OfPlant.Select} WHERE plant.id = @plantId", new { plantId })?.ToPlant());

    /// <summary>The walk of this number; null when there is none.</summary>
    public Walk? FindWalk(long walkId)
        => Read(connection => connection.QuerySingleOrDefault<Row.OfWalk>($"SELECT {Row.OfWalk.Columns} FROM walk WHERE id = @walkId", new { walkId })?.ToWalk());

    /// <summary>The place of this number; null when there is none.</summary>
    public Place? FindPlace(long placeId)
        => Read(connection => connection.QuerySingleOrDefault<Row.OfPlace>($"{Row.OfPlace.Select} WHERE place.id = @placeId", new { placeId })?.ToPlace());

    /// <summary>The photo of this number, also when it lies in the bin; null when there is none.</summary>
    public PhotoOnRecord? FindPhoto(long photoId)
        => Read(connection => connection.QuerySingleOrDefault<Row.OfPhoto>($"{Row.OfPhoto.Select} WHERE photo.id = @photoId", new { photoId })?.ToPhoto());

    /// <summary>Photos of a plant, by day and file name; those in the bin are left out.</summary>
    public IReadOnlyList<PhotoOnRecord> PhotosOfPlant(long plantId) => Read(connection => connection.Query<Row.OfPhoto>(
        $"{Row.OfPhoto.Select} WHERE photo.deleted_utc IS NULL AND photo.plant_id = @plantId ORDER BY walk.walked_on, photo.file_name, photo.id", new { plantId })
        .Select(row => row.ToPhoto()).ToList());

    /// <summary>Number of walks by place.</summary>
    public IReadOnlyDictionary<long, int> WalkCounts() => Read(connection => connection.Query<(long Place, long Count)>(
        "SELECT place_id, count(*) FROM walk GROUP BY place_id").ToDictionary(row => row.Place, row => (int)row.Count));

    /// <summary>Damage, leaves and doubts of every photo of a walk, by photo; what a list of photos shows without reading a shape.</summary>
    /// <param name="walkId">Walk; null for every walk.</param>
    /// <param name="plantId">Plant; null for every plant.</param>
    public IReadOnlyDictionary<long, PhotoFigures> PhotoFigures(long? walkId, long? plantId) => Read(connection => connection.Query<FiguresRow>(
        $"""
        {FiguresRow.Select} WHERE (@walkId IS NULL OR photo.walk_id = @walkId) AND (@plantId IS NULL OR photo.plant_id = @plantId)
        ORDER BY photo.id, leaf.ordinal
        """,
        new { walkId, plantId }).GroupBy(row => row.PhotoId).ToDictionary(rows => rows.Key, rows => FiguresRow.Sum([.. rows])));

    /// <summary>The same of one photo; null when there is none.</summary>
    public PhotoFigures? FiguresOf(long photoId) => Read(connection => connection.Query<FiguresRow>($"{FiguresRow.Select} WHERE photo.id = @photoId ORDER BY leaf.ordinal", new { photoId }).ToList()
        is { Count: > 0 } rows ? FiguresRow.Sum(rows) : null);

    /// <summary>The current reading of a photo with every shape; null when there is no such photo.</summary>
    public PhotoReading? ReadingOf(long photoId) => Read(connection =>
    {
        HeadRow? head = connection.QuerySingleOrDefault<HeadRow>(
            """
            SELECT reading.id AS ReadingId, photo.file_name AS FileName, photo.sha256 AS Sha256, photo.width_px AS Width, photo.height_px AS Height, photo.taken AS Taken,
                reading.kind AS Kind, plant.code AS Plant, reading.pixels_per_mm AS PixelsPerMm, reading.flags AS Flags
            FROM photo JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1 LEFT JOIN plant ON plant.id = photo.plant_id WHERE photo.id = @photoId
            """,
            new { photoId });
        return head is null ? null : head.ToReading([.. connection.Query<WholeLeafRow>(
            $"""
            SELECT area_px AS AreaPx, area_mm2 AS AreaMm2, share_sound AS Sound, share_stippled AS Stippled, share_yellowed AS Yellowed, share_browned AS Browned,
                share_chewed AS Chewed, share_unassessed AS Unassessed, damage AS Damage, damage_low AS DamageLow, damage_high AS DamageHigh,
                speck_count AS SpeckCount, speck_density_per_cm2 AS SpeckDensityPerCm2, speck_diameter_median_px AS SpeckDiameterMedianPx, flags AS Flags,
                outline AS Outline, speck_centres AS SpeckCentres, causes AS Causes, {FoliageRows.Columns}
            FROM leaf JOIN leaf_shape ON leaf_shape.leaf_id = leaf.id LEFT JOIN foliage ON foliage.leaf_id = leaf.id WHERE reading_id = @ReadingId ORDER BY ordinal
            """,
            head).Select(row => row.ToLeaf())]);
    });

    private sealed class FiguresRow
    {
        public const string Select = """
            SELECT photo.id AS PhotoId, reading.id AS ReadingId, reading.flags AS PhotoFlags, photo.width_px AS Width, photo.height_px AS Height, leaf.area_px AS Area,
                leaf.damage AS Damage, leaf.damage_low AS DamageLow, leaf.damage_high AS DamageHigh, leaf.flags AS LeafFlags
            FROM photo JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1 LEFT JOIN leaf ON leaf.reading_id = reading.id
            """;

        public long PhotoId { get; init; }

        public long ReadingId { get; init; }

        public string PhotoFlags { get; init; } = "";

        public long Width { get; init; }

        public long Height { get; init; }

        public double? Area { get; init; }

        public double? Damage { get; init; }

        public double? DamageLow { get; init; }

        public double? DamageHigh { get; init; }

        public string? LeafFlags { get; init; }

        // Leaves of one photo count by their area, as on the screen of "measure".
        public static PhotoFigures Sum(IReadOnlyList<FiguresRow> rows)
        {
            FiguresRow[] leaves = [.. rows.Where(row => row.Area is not null)];
            double area = leaves.Sum(row => row.Area!.Value);
            double? Mean(Func<FiguresRow, double?> value) => area > 0 ? leaves.Sum(row => row.Area * value(row)) / area : null;
            IEnumerable<string> flags = ShapeText.ReadNames(rows[0].PhotoFlags).Concat(leaves.SelectMany(row => ShapeText.ReadNames(row.LeafFlags!)));
            return new PhotoFigures(
                rows[0].ReadingId, (int)rows[0].Width, (int)rows[0].Height, leaves.Length, Mean(row => row.Damage), Mean(row => row.DamageLow), Mean(row => row.DamageHigh),
                [.. flags.Distinct(StringComparer.Ordinal)]);
        }
    }

    private sealed class HeadRow
    {
        public long ReadingId { get; init; }

        public string FileName { get; init; } = "";

        public string Sha256 { get; init; } = "";

        public long Width { get; init; }

        public long Height { get; init; }

        public string? Taken { get; init; }

        public string Kind { get; init; } = "";

        public string? Plant { get; init; }

        public double? PixelsPerMm { get; init; }

        public string Flags { get; init; } = "";

        public PhotoReading ToReading(IReadOnlyList<LeafReading> leaves) => new()
        {
            File = FileName,
            Sha256 = Sha256,
            Width = (int)Width,
            Height = (int)Height,
            Taken = Taken,
            Kind = Kind,
            Plant = Plant,
            PixelsPerMm = PixelsPerMm,
            Flags = ShapeText.ReadNames(Flags),
            Leaves = leaves,
        };
    }

    private sealed class WholeLeafRow : FoliageRow
    {
        public double AreaPx { get; init; }

        public double? AreaMm2 { get; init; }

        public double Sound { get; init; }

        public double Stippled { get; init; }

        public double Yellowed { get; init; }

        public double Browned { get; init; }

        public double Chewed { get; init; }

        public double Unassessed { get; init; }

        public double Damage { get; init; }

        public double DamageLow { get; init; }

        public double DamageHigh { get; init; }

        public long SpeckCount { get; init; }

        public double? SpeckDensityPerCm2 { get; init; }

        public double SpeckDiameterMedianPx { get; init; }

        public string Flags { get; init; } = "";

        public string Outline { get; init; } = "";

        public string SpeckCentres { get; init; } = "";

        public string Causes { get; init; } = "";

        public LeafReading ToLeaf() => new()
        {
            Outline = ShapeText.ReadOutline(Outline),
            AreaPx = AreaPx,
            AreaMm2 = AreaMm2,
            Shares = new LeafShares(Sound, Stippled, Yellowed, Browned, Chewed, Unassessed),
            Damage = Damage,
            DamageLow = DamageLow,
            DamageHigh = DamageHigh,
            SpeckCount = (int)SpeckCount,
            SpeckDensityPerCm2 = SpeckDensityPerCm2,
            SpeckDiameterMedianPx = SpeckDiameterMedianPx,
            SpeckCentres = ShapeText.ReadSpecks(SpeckCentres),
            Causes = ShapeText.ReadCauses(Causes),
            Flags = ShapeText.ReadNames(Flags),
            Greenness = Greenness,
            NewGrowth = NewGrowth,
            HealthyPhoto = HealthySha256,
            NeedleLengthMm = NeedleLengthMm,
            SpecksPerCmOfNeedle = SpecksPerCmOfNeedle,
            Crown = ToCrown(),
        };
    }
}

/// <summary>What a list shows of one photo.</summary>
/// <param name="ReadingId">Number of its current reading.</param>
/// <param name="WidthPx">Width of the upright photo.</param>
/// <param name="HeightPx">Height of the upright photo.</param>
/// <param name="LeafCount">Leaves.</param>
/// <param name="Damage">Damage of its leaves by area, 0..1; null without a leaf.</param>
/// <param name="DamageLow">Lower ends of the leaves' intervals by area; null without a leaf.</param>
/// <param name="DamageHigh">Upper ends; null without a leaf.</param>
/// <param name="Flags">Doubts about photo and leaves, each once.</param>
public sealed record PhotoFigures(
    long ReadingId, int WidthPx, int HeightPx, int LeafCount, double? Damage, double? DamageLow, double? DamageHigh, IReadOnlyList<string> Flags);
