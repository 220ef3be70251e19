using Dapper;
using LeafScan.Leaves.Reading;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Every plant with its last walk, by place and code.</summary>
    /// <param name="placeName">Only of this place; null for all.</param>
    public IReadOnlyList<PlantOverview> PlantOverviews(string? placeName = null)
    {
        string? clean = placeName is null ? null : NameText.Clean(placeName);
        if (placeName is not null && clean is null)
        {
            return [];
        }

        return Read(connection => connection.Query<OverviewRow>(
            $"""
            WITH sums AS MATERIALIZED ({PlantDays.SumsOfPlants})
            SELECT {Row.OfPlant.Columns}, coalesce(sums.walks, 0) AS WalkCount, coalesce(sums.photos, 0) AS PhotoCount,
                sums.kind AS Kind, last.walked_on AS LastWalkedOn, last.leaves AS LastLeafCount, last.damage_sum / last.leaves AS LastDamage
            FROM {Row.OfPlant.Tables}
            LEFT JOIN sums ON sums.plant_id = plant.id
            LEFT JOIN plant_day AS last ON last.plant_id = plant.id AND last.walked_on = sums.last_on AND last.kind = sums.kind
            WHERE @place IS NULL OR place.name_key = @place
            ORDER BY place.name_key, plant.code_key
            """,
            new { place = clean is null ? null : NameText.Key(clean) }).Select(row => row.ToOverview()).ToList());
    }

    /// <summary>Every leaf of a plant's current readings, by day, photo and place in the photo.</summary>
    /// <param name="plantId">Plant.</param>
    /// <param name="kind">leaf, twig or plant; null for the plant's own: leaf where it has any, else twig, else plant. Kinds are never mixed.</param>
    public IReadOnlyList<LeafOnRecord> LeavesOfPlant(long plantId, string? kind = null) => Read(connection => LeafRows.Read(connection, kind, "plant_id = $plantId", null, ("$plantId", plantId)));

    /// <summary>Every leaf with a known plant from walks between two days, both included, by plant, day, photo and place in the photo; of each plant its own kind.</summary>
    public IReadOnlyList<LeafOnRecord> LeavesBetween(DateOnly first, DateOnly last) => Read(connection => LeafRows.Read(
        connection, null, "plant_id IS NOT NULL", "walk.walked_on BETWEEN $first AND $last", ("$first", UtcText.Of(first)), ("$last", UtcText.Of(last))));

    /// <summary>Plain means by plant and month, by plant and month, of each plant's own kind. A plant without a leaf in a month has no row for it.</summary>
    public IReadOnlyList<MonthFigures> MonthFigures() => Read(connection => connection.Query<MonthRow>(
        $"""
        SELECT photo.plant_id AS PlantId, substr(walk.walked_on, 1, 7) AS Month, count(DISTINCT walk.id) AS WalkCount, count(*) AS LeafCount,
            avg(leaf.damage) AS Damage, avg(leaf.share_sound) AS Sound, avg(leaf.share_stippled) AS Stippled,
            avg(leaf.share_yellowed) AS Yellowed, avg(leaf.share_browned) AS Browned, avg(leaf.share_chewed) AS Chewed,
            avg(leaf.share_unassessed) AS Unassessed
        FROM ({PlantDays.KindsOfPlants}) AS own JOIN photo ON photo.plant_id = own.plant_id JOIN walk ON walk.id = photo.walk_id
        JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1 AND reading.kind = own.kind
        JOIN leaf ON leaf.reading_id = reading.id
        WHERE photo.deleted_utc IS NULL
        GROUP BY photo.plant_id, substr(walk.walked_on, 1, 7) ORDER BY 1, 2
        """).Select(row => row.ToFigures()).ToList());

    /// <summary>Photos on record, by day and file name; those in the bin are left out.</summary>
    /// <param name="walkId">Only of this walk; null for all.</param>
    public IReadOnlyList<PhotoOnRecord> Photos(long? walkId = null) => Read(connection => connection.Query<Row.OfPhoto>(
        $"{Row.OfPhoto.Select} WHERE photo.deleted_utc IS NULL AND (@walkId IS NULL OR photo.walk_id = @walkId) ORDER BY walk.walked_on, photo.file_name, photo.id", new { walkId })
        .Select(row => row.ToPhoto()).ToList());

    /// <summary>Every reading of a photo, newest first.</summary>
    public IReadOnlyList<ReadingOnRecord> ReadingsOfPhoto(long photoId) => Read(connection => connection.Query<ReadingRow>(
        """
        SELECT reading.id AS Id, is_current AS IsCurrent, measured_utc AS MeasuredUtc, tool_version AS ToolVersion, options_hash AS OptionsHash,
            model_version AS ModelVersion, (SELECT count(*) FROM leaf WHERE leaf.reading_id = reading.id) AS LeafCount
        FROM reading WHERE photo_id = @photoId ORDER BY reading.id DESC
        """,
        new { photoId }).Select(row => row.ToReading()).ToList());

    /// <summary>The shapes of one leaf: outline, specks and likely causes; null when there is no such leaf.</summary>
    public LeafShape? ShapeOfLeaf(long leafId) => Read(connection => connection.QuerySingleOrDefault<ShapeRow>(
        "SELECT outline AS Outline, speck_centres AS SpeckCentres, causes AS Causes FROM leaf_shape WHERE leaf_id = @leafId", new { leafId })?.ToShape());

    /// <summary>Files that were refused and not mended since, newest walk first.</summary>
    /// <param name="walkId">Only of this walk; null for all.</param>
    public IReadOnlyList<RefusedOnRecord> RefusedFiles(long? walkId = null) => Read(connection => connection.Query<RefusedRow>(
        """
        SELECT refused_file.file_name AS FileName, path_seen AS PathSeen, reason AS Reason, advice AS Advice, walk.walked_on AS WalkedOn, place.name AS PlaceName
        FROM refused_file JOIN walk ON walk.id = refused_file.walk_id JOIN place ON place.id = walk.place_id
        WHERE mended_utc IS NULL AND (@walkId IS NULL OR walk_id = @walkId) ORDER BY walk.walked_on DESC, refused_file.file_name, refused_file.id
        """,
        new { walkId }).Select(row => row.ToRefused()).ToList());

    /// <summary>What was changed by hand on one thing, oldest first.</summary>
    /// <param name="kind">"photo", "plant", "place", "tap" or "care".</param>
    /// <param name="id">Its number in the store.</param>
    public IReadOnlyList<EditOnRecord> EditsOf(string kind, long id) => Read(connection => connection.Query<EditRow>(
        """
        SELECT field AS Field, old_value AS OldValue, new_value AS NewValue, reason AS Reason, edited_utc AS EditedUtc, undone_utc AS UndoneUtc
        FROM edit WHERE table_name = @kind AND row_id = @id ORDER BY id
        """,
        new { kind, id }).Select(row => row.ToEdit()).ToList());

    private sealed class EditRow
    {
        public string Field { get; init; } = "";

        public string? OldValue { get; init; }

        public string? NewValue { get; init; }

        public string Reason { get; init; } = "";

        public string EditedUtc { get; init; } = "";

        public string? UndoneUtc { get; init; }

        public EditOnRecord ToEdit() => new(Field, OldValue, NewValue, Reason, UtcText.Time(EditedUtc), UtcText.TimeOrNull(UndoneUtc));
    }

    private sealed class OverviewRow : Row.OfPlant
    {
        public string? Kind { get; init; }

        public long WalkCount { get; init; }

        public long PhotoCount { get; init; }

        public string? LastWalkedOn { get; init; }

        public long? LastLeafCount { get; init; }

        public double? LastDamage { get; init; }

        public PlantOverview ToOverview() => new()
        {
            Plant = ToPlant(),
            Kind = Kind,
            WalkCount = (int)WalkCount,
            PhotoCount = (int)PhotoCount,
            LastWalkedOn = UtcText.DateOrNull(LastWalkedOn),
            LastLeafCount = (int)(LastLeafCount ?? 0),
            LastDamage = LastDamage,
        };
    }

    private sealed class MonthRow
    {
        public long PlantId { get; init; }

        public string Month { get; init; } = "";

        public long WalkCount { get; init; }

        public long LeafCount { get; init; }

        public double Damage { get; init; }

        public double Sound { get; init; }

        public double Stippled { get; init; }

        public double Yellowed { get; init; }

        public double Browned { get; init; }

        public double Chewed { get; init; }

        public double Unassessed { get; init; }

        public MonthFigures ToFigures() => new(
            PlantId, Month, (int)WalkCount, (int)LeafCount, Damage, new LeafShares(Sound, Stippled, Yellowed, Browned, Chewed, Unassessed));
    }

    private sealed class ReadingRow
    {
        public long Id { get; init; }

        public long IsCurrent { get; init; }

        public string MeasuredUtc { get; init; } = "";

        public string ToolVersion { get; init; } = "";

        public string OptionsHash { get; init; } = "";

        public string? ModelVersion { get; init; }

        public long LeafCount { get; init; }

        public ReadingOnRecord ToReading()
            => new(Id, IsCurrent == 1, UtcText.Time(MeasuredUtc), new ReadingOrigin(ToolVersion, OptionsHash, ModelVersion), (int)LeafCount);
    }

    private sealed class ShapeRow
    {
        public string Outline { get; init; } = "";

        public string SpeckCentres { get; init; } = "";

        public string Causes { get; init; } = "";

        public LeafShape ToShape() => new(ShapeText.ReadOutline(Outline), ShapeText.ReadSpecks(SpeckCentres), ShapeText.ReadCauses(Causes));
    }

    private sealed class RefusedRow
    {
        public string FileName { get; init; } = "";

        public string PathSeen { get; init; } = "";

        public string Reason { get; init; } = "";

        public string Advice { get; init; } = "";

        public string WalkedOn { get; init; } = "";

        public string PlaceName { get; init; } = "";

        public RefusedOnRecord ToRefused() => new(FileName, PathSeen, Reason, Advice, UtcText.Date(WalkedOn), PlaceName);
    }
}
