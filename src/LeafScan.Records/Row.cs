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
            plant.light AS Light, plant.date_in AS DateIn, plant.damage_at_delivery AS DamageAtDelivery, plant.is_check AS IsCheck, plant.healthy AS Healthy
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

        public string? Healthy { get; init; }

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
                Healthy = HealthyOnRecord.Read(Healthy),
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
}
