using LeafScan.Records.Upkeep;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Tests;

/// <summary>Backups and changes of layout.</summary>
public sealed class UpkeepTests
{
    private static readonly Migration Second = new(Migration.All[^1].Number + 1, "try", "CREATE TABLE added (id INTEGER PRIMARY KEY) STRICT; INSERT INTO added VALUES (7);");

    [Fact]
    public void Steps_count_up_from_one()
    {
        int[] numbers = [.. Migration.All.Select(step => step.Number)];
        Assert.Equal(1, numbers[0]);
        Assert.Equal(numbers.Distinct().Order(), numbers);
    }

    [Fact]
    public void A_backup_holds_rows_that_are_still_in_the_write_ahead_file()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = Filled(folder);
        Assert.NotEqual(0, new FileInfo(folder.StoreFile + "-wal").Length);

        string backup = store.BackUp();

        Assert.Equal([backup], store.Backups());
        Assert.Equal(["leafscan-20260603T131400000Z.db"], Directory.EnumerateFiles(Path.Combine(folder.FolderPath, "backups")).Select(Path.GetFileName));
        Assert.Equal(1, CountPhotos(backup));
    }

    [Fact]
    public void A_backup_put_in_place_is_the_record_of_that_time()
    {
        using var folder = new ScratchFolder();
        using var restored = new ScratchFolder();
        using (RecordStore store = Filled(folder))
        {
            store.BackUp(restored.StoreFile);
            store.RecordPhoto(Some.Photo(store.Walks()[0].Id, 2));
        }

        using RecordStore old = restored.Open();

        Assert.NotNull(old.FindPhoto(Some.Sha(1)));
        Assert.Null(old.FindPhoto(Some.Sha(2)));
        Assert.Empty(old.CheckIntegrity());
    }

    [Fact]
    public void A_backup_overwrites_no_file()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = Filled(folder);
        string taken = Path.Combine(folder.FolderPath, "taken.db");
        File.WriteAllText(taken, "mine");

        Assert.Equal(RecordTrouble.CannotWrite, Assert.Throws<RecordException>(() => store.BackUp(taken)).Trouble);
        Assert.Equal("mine", File.ReadAllText(taken));
    }

    [Fact]
    public void Two_backups_in_one_moment_get_two_names()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = Filled(folder);

        Assert.NotEqual(store.BackUp(), store.BackUp());
        Assert.Equal(2, store.Backups().Count);
    }

    [Fact]
    public void An_older_record_is_brought_up_to_date_after_a_backup()
    {
        using var folder = new ScratchFolder();
        Filled(folder).Dispose();

        using RecordStore newer = folder.OpenWith([.. Migration.All, Second]);

        Assert.Equal(Second.Number, newer.Describe().Layout);
        Assert.Equal(1, newer.Describe().Photos);
        string backup = Assert.Single(newer.Backups());
        Assert.StartsWith($"before-layout-{Second.Number}-", Path.GetFileName(backup), StringComparison.Ordinal);
        Assert.Equal(1, CountPhotos(backup));
    }

    [Fact]
    public void A_new_record_needs_no_backup()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();

        Assert.Empty(store.Backups());
    }

    [Fact]
    public void A_step_that_fails_half_way_leaves_the_record_as_it_was()
    {
        using var folder = new ScratchFolder();
        Filled(folder).Dispose();
        var broken = new Migration(Second.Number, "broken", "CREATE TABLE half (id INTEGER) STRICT; DELETE FROM leaf_shape; INSERT INTO nowhere VALUES (1);");

        Assert.Throws<SqliteException>(() => folder.OpenWith([.. Migration.All, broken]));

        using RecordStore same = folder.Open();
        Assert.Equal(Migration.All[^1].Number, same.Describe().Layout);
        Assert.NotEmpty(same.ShapeOfLeaf(1)!.Outline);
        Assert.Single(same.Backups());
    }

    [Fact]
    public void A_record_of_a_newer_version_is_refused_and_left_as_it_is()
    {
        using var folder = new ScratchFolder();
        folder.OpenWith([.. Migration.All, Second]).Dispose();

        RecordException trouble = Assert.Throws<RecordException>(() => folder.Open());

        Assert.Equal(RecordTrouble.FromNewerVersion, trouble.Trouble);
        using RecordStore newer = folder.OpenWith([.. Migration.All, Second]);
        Assert.Equal(Second.Number, newer.Describe().Layout);
    }

    [Fact]
    public void Only_the_last_automatic_backups_are_kept_and_those_of_a_person_all()
    {
        using var folder = new ScratchFolder();
        using (RecordStore store = Filled(folder))
        {
            store.BackUp();
        }

        List<Migration> steps = [.. Migration.All];
        int newest = Migration.All[^1].Number;
        for (int number = newest + 1; number <= newest + 4; number++)
        {
            folder.Clock.Now = folder.Clock.Now.AddDays(1);
            steps.Add(new Migration(number, "try", $"CREATE TABLE added{number} (id INTEGER) STRICT"));
            folder.OpenWith([.. steps]).Dispose();
        }

        using RecordStore last = folder.OpenWith([.. steps]);
        Assert.Equal(
            [$"before-layout-{newest + 4}-20260607T131400000Z.db", $"before-layout-{newest + 3}-20260606T131400000Z.db", "leafscan-20260603T131400000Z.db"],
            last.Backups().Select(Path.GetFileName));
    }

    private static RecordStore Filled(ScratchFolder folder)
    {
        RecordStore store = folder.Open();
        Walk walk = store.FindOrAddWalk(store.FindOrAddPlace("Nursery").Id, Some.Day);
        store.RecordPhoto(Some.Photo(walk.Id, 1));
        return store;
    }

    private static long CountPhotos(string file)
    {
        using var connection = new SqliteConnection($"Data Source={file};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM photo";
        return (long)command.ExecuteScalar()!;
    }
}
