namespace LeafScan.Records.Tests;

/// <summary>
/// An independent reader: the sqlite3 shell of the system (Debian package sqlite3), with a SQLite library that is not the
/// one this project ships.
/// </summary>
public sealed class SqliteShellTests
{
    [SqliteShellFact]
    public void The_shell_finds_a_sound_file_in_write_ahead_mode_with_strict_tables_and_the_rows()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();
        Walk walk = store.FindOrAddWalk(store.FindOrAddPlace("Gärtnerei “Süd”").Id, Some.Day);
        store.RecordPhoto(Some.Photo(walk.Id, 1, "B12", Some.Leaf(0.25), Some.Leaf(0.5)));

        // The record is open in this process meanwhile: what the shell sees comes through the write-ahead file.
        Assert.Equal("ok", Ask(folder, "PRAGMA integrity_check"));
        Assert.Equal("", Ask(folder, "PRAGMA foreign_key_check"));
        Assert.Equal("wal", Ask(folder, "PRAGMA journal_mode"));
        Assert.Equal($"1281774435|{Upkeep.Migration.All[^1].Number}", Ask(folder, "SELECT a.application_id, u.user_version FROM pragma_application_id a, pragma_user_version u"));
        Assert.Equal("0|28", Ask(folder, "SELECT sum(strict = 0), count(*) FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite_%'"));
        Assert.Equal(
            "Gärtnerei “Süd”|2026-06-03|B12|0.25\nGärtnerei “Süd”|2026-06-03|B12|0.5",
            Ask(folder, """
                SELECT place.name, walked_on, code, share_stippled FROM leaf JOIN reading ON reading.id = reading_id JOIN photo ON photo.id = photo_id
                JOIN walk ON walk.id = walk_id JOIN place ON place.id = walk.place_id JOIN plant ON plant.id = plant_id ORDER BY ordinal
                """));
        Assert.Equal("[10.2,11.5,7]", Ask(folder, "SELECT json_extract(speck_centres, '$[0]') FROM leaf_shape WHERE leaf_id = 1"));
    }

    [SqliteShellFact]
    public void The_store_keeps_no_text_where_a_number_belongs_and_no_photo_without_a_walk()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();
        Walk walk = store.FindOrAddWalk(store.FindOrAddPlace("Nursery").Id, Some.Day);
        store.RecordPhoto(Some.Photo(walk.Id, 1));

        Assert.Contains("cannot store TEXT value in REAL column", Ask(folder, "UPDATE leaf SET damage = 'much'"), StringComparison.Ordinal);
        Assert.Contains("FOREIGN KEY constraint failed", Ask(folder, "PRAGMA foreign_keys = ON; UPDATE photo SET walk_id = 99"), StringComparison.Ordinal);
        Assert.Contains("UNIQUE constraint failed", Ask(folder, "INSERT INTO walk (place_id, walked_on, recorded_utc) SELECT place_id, walked_on, recorded_utc FROM walk"), StringComparison.Ordinal);
    }

    private static string Ask(ScratchFolder folder, string sql) => Child.Run("sqlite3", folder.StoreFile, sql)!.Value.Output.TrimEnd();
}

/// <summary>A test that needs the sqlite3 shell; skipped where it is missing.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class SqliteShellFactAttribute : FactAttribute
{
    public SqliteShellFactAttribute()
    {
        if (Child.Run("sqlite3", "--version") is null)
        {
            Skip = "Skipped: the sqlite3 shell is not installed.";
        }
    }
}
