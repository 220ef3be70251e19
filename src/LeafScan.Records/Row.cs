using LeafScan.Leaves.Reading;

namespace LeafScan.Records;

/// <summary>
/// Rows as SQLite gives them: integers are long, times and lists are text. Properties, not constructor parameters,
/// because an empty column in the first row would hide its type from constructor matching.
/// </summary>
internal static class Row
{
    internal sealed class OfPlace
    {
        public long Id { get; init; }

        public const string Select = "SELECT place.id AS Id, place.name AS Name, client.name AS ClientName FROM place LEFT JOIN client ON client.id = place.client_id";

        public string Name { get; init; } = "";

        public string? ClientName { get; init; }

        public Place ToPlace() => new(Id, Name, ClientName);
    }

    internal class OfPlant
    {
        public const string Columns = """
            plant.id AS Id, plant.place_id AS PlaceId, plant.code AS Code, plant.name AS Name, plant.species AS Species, place.name AS PlaceName,
            plant.cultivar AS Cultivar, block.name AS Block, plant.row_name AS RowName, plant.position AS Position, plant.mite_season AS MiteSeason,
            plant.light AS Light, plant.date_in AS DateIn, plant.damage_at_delivery AS DamageAtDelivery, plant.is_check AS IsCheck
            """;

        public const string Tables = "plant JOIN place ON place.id = plant.place_id LEFT JOIN block ON block.id = plant.block_id";

        public const string Select = $"SELECT {Columns} FROM {Tables}";

        public long Id { get; init; }

        public long PlaceId { get; init; }

        public string Code { get; init; } = "";

        public string? Name { get; init; }

        public string? Species { get; init; }

        public string PlaceName { get; init; } = "";

        public string? Cultivar { get; init; }

        public string? Block { get; init; }

        public string? RowName { get; init; }

        public string? Position { get; init; }

        public string? MiteSeason { get; init; }

        public string? Light { get; init; }

        public string? DateIn { get; init; }

        public double? DamageAtDelivery { get; init; }

        public long IsCheck { get; init; }

        public Plant ToPlant() => new(Id, PlaceId, Code, Name, Species, PlaceName)
        {
            Facts = new PlantFacts
            {
                Cultivar = Cultivar,
                Block = Block,
                Row = RowName,
                Position = Position,
                Season = StoreWords.SeasonOf(MiteSeason),
                Light = Light,
                DateIn = UtcText.DateOrNull(DateIn),
                DamageAtDelivery = DamageAtDelivery,
                IsCheck = IsCheck == 1,
            },
        };
    }

    internal sealed class OfWalk
    {
        public const string Columns = "id AS Id, place_id AS PlaceId, walked_on AS WalkedOn, recorded_utc AS RecordedUtc";

        public long Id { get; init; }

        public long PlaceId { get; init; }

        public string WalkedOn { get; init; } = "";

        public string RecordedUtc { get; init; } = "";

        public Walk ToWalk() => new(Id, PlaceId, UtcText.Date(WalkedOn), UtcText.Time(RecordedUtc));
    }

    internal sealed class OfPhoto
    {
        public const string Select = """
            SELECT photo.id AS Id, photo.sha256 AS Sha256, photo.file_name AS FileName, photo.path_seen AS PathSeen, photo.kind AS Kind, photo.taken AS Taken,
                photo.walk_id AS WalkId, walk.walked_on AS WalkedOn, place.name AS PlaceName, photo.plant_id AS PlantId,
                plant.code AS PlantCode, photo.plant_by AS PlantBy, photo.leaf_age AS LeafAge, photo.leaf_tag AS LeafTag, photo.deleted_utc AS DeletedUtc,
                reading.tool_version AS ToolVersion, reading.options_hash AS OptionsHash,
                reading.model_version AS ModelVersion
            FROM photo JOIN walk ON walk.id = photo.walk_id JOIN place ON place.id = walk.place_id
            JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1
            LEFT JOIN plant ON plant.id = photo.plant_id
            """;

        public long Id { get; init; }

        public string Sha256 { get; init; } = "";

        public string FileName { get; init; } = "";

        public string PathSeen { get; init; } = "";

        public string Kind { get; init; } = "";

        public string? Taken { get; init; }

        public long WalkId { get; init; }

        public string WalkedOn { get; init; } = "";

        public string PlaceName { get; init; } = "";

        public long? PlantId { get; init; }

        public string? PlantCode { get; init; }

        public string PlantBy { get; init; } = "";

        public string? LeafAge { get; init; }

        public string? LeafTag { get; init; }

        public string? DeletedUtc { get; init; }

        public string ToolVersion { get; init; } = "";

        public string OptionsHash { get; init; } = "";

        public string? ModelVersion { get; init; }

        public PhotoOnRecord ToPhoto() => new()
        {
            Id = Id,
            Sha256 = Sha256,
            FileName = FileName,
            PathSeen = PathSeen,
            Kind = Kind,
            Taken = Taken,
            WalkId = WalkId,
            WalkedOn = UtcText.Date(WalkedOn),
            PlaceName = PlaceName,
            PlantId = PlantId,
            PlantCode = PlantCode,
            PlantBy = PlantBy,
            LeafAge = StoreWords.GrowthOf(LeafAge),
            LeafTag = LeafTag,
            IsInBin = DeletedUtc is not null,
            Origin = new ReadingOrigin(ToolVersion, OptionsHash, ModelVersion),
        };
    }

    internal sealed class OfLeaf
    {
        public const string Select = $"""
            SELECT leaf.id AS LeafId, reading.kind AS Kind, photo.plant_id AS PlantId, photo.walk_id AS WalkId, walk.walked_on AS WalkedOn,
                photo.id AS PhotoId, photo.file_name AS FileName, leaf.ordinal AS Ordinal, leaf.area_px AS AreaPx,
                leaf.area_mm2 AS AreaMm2, leaf.share_sound AS Sound, leaf.share_stippled AS Stippled,
                leaf.share_yellowed AS Yellowed, leaf.share_browned AS Browned, leaf.share_chewed AS Chewed,
                leaf.share_unassessed AS Unassessed, leaf.damage AS Damage, leaf.damage_low AS DamageLow,
                leaf.damage_high AS DamageHigh, leaf.speck_count AS SpeckCount,
                leaf.speck_density_per_cm2 AS SpeckDensityPerCm2, leaf.speck_diameter_median_px AS SpeckDiameterMedianPx,
                leaf.flags AS LeafFlags, reading.flags AS PhotoFlags, photo.leaf_age AS PhotoAge, photo.leaf_tag AS PhotoTag,
                leaf_note.age AS OwnAge, leaf_note.tag AS OwnTag
            FROM photo JOIN walk ON walk.id = photo.walk_id
            JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1
            JOIN leaf ON leaf.reading_id = reading.id
            LEFT JOIN leaf_note ON leaf_note.photo_id = photo.id AND leaf_note.ordinal = leaf.ordinal
            WHERE photo.deleted_utc IS NULL AND reading.kind = coalesce(@kind, {PlantDays.KindOfPlant}) AND
            """;

        public long LeafId { get; init; }

        public string Kind { get; init; } = "";

        public long PlantId { get; init; }

        public long WalkId { get; init; }

        public string WalkedOn { get; init; } = "";

        public long PhotoId { get; init; }

        public string FileName { get; init; } = "";

        public long Ordinal { get; init; }

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

        public string LeafFlags { get; init; } = "";

        public string PhotoFlags { get; init; } = "";

        public string? PhotoAge { get; init; }

        public string? PhotoTag { get; init; }

        public string? OwnAge { get; init; }

        public string? OwnTag { get; init; }

        /// <summary>Rows of a query as leaves. A label given to a photo names its leaf only where there is one.</summary>
        public static IReadOnlyList<LeafOnRecord> ToLeaves(IEnumerable<OfLeaf> rows)
        {
            OfLeaf[] all = [.. rows];
            HashSet<long> several = [.. all.Where(row => row.Ordinal > 0).Select(row => row.PhotoId)];
            Dictionary<(string Photo, string Leaf), IReadOnlyList<string>> flags = [];
            var leaves = new LeafOnRecord[all.Length];
            for (int i = 0; i < all.Length; i++)
            {
                OfLeaf row = all[i];

                // Thousands of leaves share a handful of flag lists.
                if (!flags.TryGetValue((row.PhotoFlags, row.LeafFlags), out IReadOnlyList<string>? names))
                {
                    flags[(row.PhotoFlags, row.LeafFlags)] = names = [.. ShapeText.ReadNames(row.PhotoFlags).Union(ShapeText.ReadNames(row.LeafFlags), StringComparer.Ordinal)];
                }

                leaves[i] = row.ToLeaf(names, several.Contains(row.PhotoId));
            }

            return leaves;
        }

        private LeafOnRecord ToLeaf(IReadOnlyList<string> flags, bool isOneOfSeveral) => new()
        {
            LeafId = LeafId,
            Kind = Kind,
            PlantId = PlantId,
            WalkId = WalkId,
            WalkedOn = UtcText.Date(WalkedOn),
            PhotoId = PhotoId,
            FileName = FileName,
            Ordinal = (int)Ordinal,
            AreaPx = AreaPx,
            AreaMm2 = AreaMm2,
            Shares = new LeafShares(Sound, Stippled, Yellowed, Browned, Chewed, Unassessed),
            Damage = Damage,
            DamageLow = DamageLow,
            DamageHigh = DamageHigh,
            SpeckCount = (int)SpeckCount,
            SpeckDensityPerCm2 = SpeckDensityPerCm2,
            SpeckDiameterMedianPx = SpeckDiameterMedianPx,
            Flags = flags,
            Age = StoreWords.GrowthOf(OwnAge ?? PhotoAge),
            Tag = OwnTag ?? (isOneOfSeveral ? null : PhotoTag),
        };
    }
}
