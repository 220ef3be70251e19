using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>The place of this name; begun when there is none. Letter case and doubled spaces do not count.</summary>
    public Place FindOrAddPlace(string name)
    {
        string clean = NameText.CleanOrThrow(name, "the name of a place");
        return Write(transaction =>
        {
            SqliteConnection connection = transaction.Connection!;
            connection.Execute(
                "INSERT INTO place (name, name_key, created_utc) VALUES (@clean, @key, @now) ON CONFLICT (name_key) DO NOTHING",
                new { clean, key = NameText.Key(clean), now = Now() }, transaction);
            return PlaceOf(connection, clean, transaction)!;
        });
    }

    /// <summary>The place of this name, or null.</summary>
    public Place? FindPlace(string name) => NameText.Clean(name) is { } clean ? Read(connection => PlaceOf(connection, clean, null)) : null;

    /// <summary>Every place, by name.</summary>
    public IReadOnlyList<Place> Places()
        => Read(connection => connection.Query<Row.OfPlace>($"{Row.OfPlace.Select} ORDER BY place.name_key").Select(row => row.ToPlace()).ToList());

    /// <summary>The walk through a place on a day; begun when there is none, so that adding the same folder again changes nothing.</summary>
    /// <param name="placeId">Place.</param>
    /// <param name="walkedOn">Local calendar day.</param>
    public Walk FindOrAddWalk(long placeId, DateOnly walkedOn) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        var key = new { placeId, day = UtcText.Of(walkedOn), now = Now() };
        connection.Execute(
            "INSERT INTO walk (place_id, walked_on, recorded_utc) VALUES (@placeId, @day, @now) ON CONFLICT (place_id, walked_on) DO NOTHING", key, transaction);
        return connection.QuerySingle<Row.OfWalk>(
            $"SELECT {Row.OfWalk.Columns} FROM walk WHERE place_id = @placeId AND walked_on = @day", key, transaction).ToWalk();
    });

    /// <summary>Walks, newest first.</summary>
    /// <param name="placeId">Only of this place; null for all.</param>
    public IReadOnlyList<Walk> Walks(long? placeId = null) => Read(connection => connection.Query<Row.OfWalk>(
        $"SELECT {Row.OfWalk.Columns} FROM walk WHERE @placeId IS NULL OR place_id = @placeId ORDER BY walked_on DESC, id DESC", new { placeId })
        .Select(row => row.ToWalk()).ToList());

    /// <summary>The plant of this code in a place; begun when there is none.</summary>
    public Plant FindOrAddPlant(long placeId, string code)
    {
        string clean = NameText.CleanOrThrow(code, "a plant code");
        return Write(transaction => PlantOf(transaction, placeId, clean));
    }

    /// <summary>
    /// Every plant of this code. Codes are unique within a place only, so there may be several; then the person must name
    /// the place.
    /// </summary>
    /// <param name="code">Code, without regard to letter case.</param>
    /// <param name="placeName">Only in this place; null for all.</param>
    public IReadOnlyList<Plant> FindPlants(string code, string? placeName = null)
    {
        string? cleanCode = NameText.Clean(code);
        string? cleanPlace = placeName is null ? null : NameText.Clean(placeName);
        if (cleanCode is null || (placeName is not null && cleanPlace is null))
        {
            return [];
        }

        return Read(connection => connection.Query<Row.OfPlant>(
            $"""
            {Row.OfPlant.Select} WHERE plant.code_key = @code AND (@place IS NULL OR place.name_key = @place) ORDER BY place.name_key
            """,
            new { code = NameText.Key(cleanCode), place = cleanPlace is null ? null : NameText.Key(cleanPlace) }).Select(row => row.ToPlant()).ToList());
    }

    private static Place? PlaceOf(SqliteConnection connection, string cleanName, SqliteTransaction? transaction)
        => connection.QuerySingleOrDefault<Row.OfPlace>(
            $"{Row.OfPlace.Select} WHERE place.name_key = @key", new { key = NameText.Key(cleanName) }, transaction)?.ToPlace();

    private Plant PlantOf(SqliteTransaction transaction, long placeId, string cleanCode)
    {
        SqliteConnection connection = transaction.Connection!;
        var key = new { placeId, code = cleanCode, key = NameText.Key(cleanCode), now = Now() };
        connection.Execute(
            "INSERT INTO plant (place_id, code, code_key, created_utc) VALUES (@placeId, @code, @key, @now) ON CONFLICT (place_id, code_key) DO NOTHING", key, transaction);
        return connection.QuerySingle<Row.OfPlant>(
            $"{Row.OfPlant.Select} WHERE plant.place_id = @placeId AND plant.code_key = @key", key, transaction).ToPlant();
    }
}
