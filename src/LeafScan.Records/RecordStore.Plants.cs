using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    private const string IsUntreated =
        "(plant.is_check = 1 OR EXISTS (SELECT 1 FROM care WHERE care.plant_id = plant.id AND care.what = 'nothing' AND care.deleted_utc IS NULL))";

    /// <summary>Changes what is known of a plant; each changed value is kept among the edits.</summary>
    /// <param name="plantId">Plant.</param>
    /// <param name="change">Gives the plant as it should be; code, place and numbers stay.</param>
    /// <param name="reason">Why, for the edits.</param>
    /// <returns>The plant as it is now.</returns>
    /// <exception cref="RecordException">A text cannot be kept, or the damage at delivery lies outside 0..1.</exception>
    public Plant EditPlant(long plantId, Func<Plant, Plant> change, string reason) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        Plant old = PlantById(connection, plantId, transaction);
        Plant wanted = Checked(change(old));
        PlantFacts facts = wanted.Facts;
        connection.Execute(
            """
            UPDATE plant SET name = @Name, species = @Species, cultivar = @Cultivar, block_id = @block, row_name = @Row, position = @Position,
                mite_season = @season, light = @Light, date_in = @dateIn, damage_at_delivery = @DamageAtDelivery, is_check = @isCheck,
                healthy = @healthy WHERE id = @plantId
            """,
            new
            {
                plantId,
                wanted.Name,
                wanted.Species,
                facts.Cultivar,
                block = BlockOf(transaction, old.PlaceId, facts.Block),
                facts.Row,
                facts.Position,
                season = StoreWords.Of(facts.Season),
                facts.Light,
                dateIn = facts.DateIn is { } day ? UtcText.Of(day) : null,
                facts.DamageAtDelivery,
                isCheck = facts.IsCheck ? 1 : 0,
                healthy = facts.Healthy?.ToText(),
            },
            transaction);
        Plant now = PlantById(connection, plantId, transaction);
        var note = new ChangeNote(transaction, reason, Now());
        foreach (((string field, string? before), (string _, string? after)) in Fields(old).Zip(Fields(now)))
        {
            note.Keep("plant", plantId, field, before, after);
        }

        return now;
    });

    /// <summary>Gives a plant its name and species; a changed value is kept among the edits.</summary>
    /// <param name="plantId">Plant.</param>
    /// <param name="name">What people call it; null for none.</param>
    /// <param name="species">Botanical name; null for none.</param>
    /// <param name="reason">Why, for the edits.</param>
    public void DescribePlant(long plantId, string? name, string? species, string reason)
        => EditPlant(plantId, plant => plant with { Name = name, Species = species }, reason);

    /// <summary>Gives a place to a client, begun when it is new; null for none. The old client is kept among the edits.</summary>
    /// <param name="placeId">Place.</param>
    /// <param name="clientName">Name of the client.</param>
    /// <param name="reason">Why, for the edits.</param>
    public Place SetClient(long placeId, string? clientName, string reason) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        Place old = PlaceById(connection, placeId, transaction);
        SetClient(transaction, placeId, clientName);
        Place now = PlaceById(connection, placeId, transaction);
        new ChangeNote(transaction, reason, Now()).Keep("place", placeId, "client", old.ClientName, now.ClientName);
        return now;
    });

    /// <summary>Every client, by name.</summary>
    public IReadOnlyList<Client> Clients()
        => Read(connection => connection.Query<Row.OfPlace>("SELECT id AS Id, name AS Name FROM client ORDER BY name_key").Select(row => new Client(row.Id, row.Name)).ToList());

    /// <summary>Every plant, by place and code, without reading a leaf.</summary>
    /// <param name="placeName">Only of this place; null for all.</param>
    /// <param name="blockName">Only of this block; null for all.</param>
    /// <param name="clientName">Only of this client; null for all.</param>
    public IReadOnlyList<Plant> Plants(string? placeName = null, string? blockName = null, string? clientName = null) => Read(connection => connection.Query<Row.OfPlant>(
        $"""
        {Row.OfPlant.Select} WHERE (@place IS NULL OR place.name_key = @place) AND (@block IS NULL OR block.name_key = @block)
            AND (@client IS NULL OR place.client_id = (SELECT id FROM client WHERE name_key = @client))
        ORDER BY place.name_key, plant.code_key
        """,
        new { place = KeyOrNone(placeName), block = KeyOrNone(blockName), client = KeyOrNone(clientName) }).Select(row => row.ToPlant()).ToList());

    /// <summary>
    /// Plants of the same place and species as this one that a person marked as left untreated, or that have a care entry
    /// "nothing"; whether nothing else was done to them is for the caller to see.
    /// </summary>
    public IReadOnlyList<Plant> UntreatedBeside(Plant plant) => plant.Species is null ? [] : Read(connection => connection.Query<Row.OfPlant>(
        $"""
        {Row.OfPlant.Select} WHERE plant.place_id = @PlaceId AND plant.species = @Species COLLATE NOCASE AND plant.id <> @Id
            AND {IsUntreated}
        ORDER BY plant.code_key
        """,
        new { plant.PlaceId, plant.Species, plant.Id }).Select(row => row.ToPlant()).ToList());

    private void SetClient(SqliteTransaction transaction, long placeId, string? clientName)
    {
        SqliteConnection connection = transaction.Connection!;
        string? clean = clientName is null ? null : NameText.CleanOrThrow(clientName, "the name of a client");
        if (clean is not null)
        {
            connection.Execute(
                "INSERT INTO client (name, name_key, created_utc) VALUES (@clean, @key, @now) ON CONFLICT (name_key) DO NOTHING",
                new { clean, key = NameText.Key(clean), now = Now() }, transaction);
        }

        connection.Execute(
            "UPDATE place SET client_id = (SELECT id FROM client WHERE name_key = @key) WHERE id = @placeId",
            new { placeId, key = clean is null ? null : NameText.Key(clean) }, transaction);
    }

    private long? BlockOf(SqliteTransaction transaction, long placeId, string? name)
    {
        if (name is null)
        {
            return null;
        }

        var key = new { placeId, name, key = NameText.Key(name), now = Now() };
        transaction.Connection!.Execute(
            "INSERT INTO block (place_id, name, name_key, created_utc) VALUES (@placeId, @name, @key, @now) ON CONFLICT (place_id, name_key) DO NOTHING", key, transaction);
        return transaction.Connection!.QuerySingle<long>("SELECT id FROM block WHERE place_id = @placeId AND name_key = @key", key, transaction);
    }

    private static Plant PlantById(SqliteConnection connection, long plantId, SqliteTransaction? transaction)
        => connection.QuerySingle<Row.OfPlant>($"{Row.OfPlant.Select} WHERE plant.id = @plantId", new { plantId }, transaction).ToPlant();

    private static Place PlaceById(SqliteConnection connection, long placeId, SqliteTransaction? transaction)
        => connection.QuerySingle<Row.OfPlace>($"{Row.OfPlace.Select} WHERE place.id = @placeId", new { placeId }, transaction).ToPlace();

    // A name that cannot be kept is none that is on record.
    private static string? KeyOrNone(string? name) => name is null ? null : NameText.Key(NameText.Clean(name) ?? "\n");

    private static Plant Checked(Plant plant)
    {
        if (plant.Facts.DamageAtDelivery is { } damage && !(damage is >= 0 and <= 1))
        {
            throw new RecordException(RecordTrouble.WrongValue, "The damage at delivery lies outside 0 to 100 %.", "Nothing was written.", "Give a share between the two.");
        }

        return plant with
        {
            Name = CleanOrNull(plant.Name, "a plant's name", NameText.LongestCalledName),
            Species = CleanOrNull(plant.Species, "a species"),
            Facts = plant.Facts with
            {
                Cultivar = CleanOrNull(plant.Facts.Cultivar, "a cultivar"),
                Block = CleanOrNull(plant.Facts.Block, "the name of a block"),
                Row = CleanOrNull(plant.Facts.Row, "a row"),
                Position = CleanOrNull(plant.Facts.Position, "a position"),
                Light = CleanOrNull(plant.Facts.Light, "a word for the light"),
            },
        };
    }

    private static string? CleanOrNull(string? text, string whatItNames, int longest = NameText.LongestName)
        => string.IsNullOrWhiteSpace(text) ? null : NameText.CleanOrThrow(text, whatItNames, longest);

    private static (string Field, string? Value)[] Fields(Plant plant) =>
    [
        ("name", plant.Name),
        ("species", plant.Species),
        ("cultivar", plant.Facts.Cultivar),
        ("block", plant.Facts.Block),
        ("row_name", plant.Facts.Row),
        ("position", plant.Facts.Position),
        ("mite_season", StoreWords.Of(plant.Facts.Season)),
        ("light", plant.Facts.Light),
        ("date_in", plant.Facts.DateIn is { } day ? UtcText.Of(day) : null),
        ("damage_at_delivery", plant.Facts.DamageAtDelivery?.ToString("R", CultureInfo.InvariantCulture)),
        ("is_check", plant.Facts.IsCheck ? "1" : "0"),
        (HealthyField, plant.Facts.Healthy?.ToText()),
    ];
}
