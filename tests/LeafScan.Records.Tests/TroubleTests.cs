using System.Text;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Tests;

/// <summary>Files and folders that make trouble: each gets a clear sentence, and nothing is harmed.</summary>
public sealed class TroubleTests
{
    [Fact]
    public void No_record_is_begun_when_only_an_old_one_is_wanted()
    {
        using var folder = new ScratchFolder();
        string inside = Path.Combine(folder.FolderPath, "not-there");

        RecordException trouble = Assert.Throws<RecordException>(() => RecordStore.Open(inside, folder.Clock, new RecordOptions { CreateIfMissing = false }));

        Assert.Equal(RecordTrouble.NoRecord, trouble.Trouble);
        Assert.False(Directory.Exists(inside));
        Assert.False(RecordStore.Exists(inside));
    }

    [Fact]
    public void A_text_file_of_the_records_name_is_refused_and_left_as_it_is()
    {
        using var folder = new ScratchFolder();
        File.WriteAllText(folder.StoreFile, new string('x', 5000));

        Assert.Equal(RecordTrouble.NotARecord, Assert.Throws<RecordException>(() => folder.Open()).Trouble);
        Assert.Equal(new string('x', 5000), File.ReadAllText(folder.StoreFile));
    }

    [Fact]
    public void Another_programs_database_is_refused_and_left_as_it_is()
    {
        using var folder = new ScratchFolder();
        using (var other = new SqliteConnection($"Data Source={folder.StoreFile};Pooling=False"))
        {
            other.Open();
            using SqliteCommand command = other.CreateCommand();
            command.CommandText = "CREATE TABLE theirs (a)";
            command.ExecuteNonQuery();
        }

        byte[] before = File.ReadAllBytes(folder.StoreFile);

        Assert.Equal(RecordTrouble.NotARecord, Assert.Throws<RecordException>(() => folder.Open()).Trouble);
        Assert.Equal(before, File.ReadAllBytes(folder.StoreFile));
    }

    [Fact]
    public void An_empty_file_of_the_records_name_becomes_a_record()
    {
        using var folder = new ScratchFolder();
        File.WriteAllBytes(folder.StoreFile, []);

        using RecordStore store = folder.Open();

        Assert.Empty(store.CheckIntegrity());
    }

    [Fact]
    public void A_damaged_record_is_named_as_such_with_the_way_back()
    {
        using var folder = new ScratchFolder();
        Fill(folder, 200);
        byte[] bytes = File.ReadAllBytes(folder.StoreFile);
        Array.Fill(bytes, (byte)0xA5, 4096, bytes.Length - 4096);
        File.WriteAllBytes(folder.StoreFile, bytes);

        RecordException trouble = Assert.Throws<RecordException>(() =>
        {
            using RecordStore store = folder.Open();
            store.PlantOverviews();
        });

        Assert.Equal(RecordTrouble.Damaged, trouble.Trouble);
        Assert.Contains("backups", trouble.Next, StringComparison.Ordinal);
    }

    [Fact]
    public void A_few_wrong_bytes_in_an_index_are_found_by_the_integrity_check()
    {
        using var folder = new ScratchFolder();
        Fill(folder, 200);
        byte[] bytes = File.ReadAllBytes(folder.StoreFile);

        // A fingerprint stands once in the table and once in its index; only one of the two is changed.
        int at = bytes.AsSpan().LastIndexOf(Encoding.ASCII.GetBytes(Some.Sha(150)));
        bytes[at + 63] ^= 1;
        File.WriteAllBytes(folder.StoreFile, bytes);

        using RecordStore store = folder.Open();

        Assert.NotEmpty(store.CheckIntegrity());
    }

    [Fact]
    public void A_reference_to_a_missing_row_is_found_by_the_integrity_check()
    {
        using var folder = new ScratchFolder();
        Fill(folder, 1);
        using (var plain = new SqliteConnection($"Data Source={folder.StoreFile};Pooling=False;Foreign Keys=False"))
        {
            plain.Open();
            using SqliteCommand command = plain.CreateCommand();
            command.CommandText = "DELETE FROM walk";
            command.ExecuteNonQuery();
        }

        using RecordStore store = folder.Open();

        Assert.Contains("missing row of walk", Assert.Single(store.CheckIntegrity()), StringComparison.Ordinal);
    }

    [Fact]
    public void A_data_folder_that_is_a_file_is_told_in_a_sentence()
    {
        using var folder = new ScratchFolder();
        string file = Path.Combine(folder.FolderPath, "a-file");
        File.WriteAllText(file, "x");

        RecordException trouble = Assert.Throws<RecordException>(() => RecordStore.Open(Path.Combine(file, "data"), folder.Clock));

        Assert.Equal(RecordTrouble.CannotWrite, trouble.Trouble);
        Assert.Contains("--data-dir", trouble.Next, StringComparison.Ordinal);
    }

    [PrivateMountFact]
    public void A_record_on_a_read_only_disk_is_told_in_a_sentence()
    {
        using var folder = new ScratchFolder();
        Fill(folder, 3);

        (int exitCode, string output) = PrivateMount.Run(
            $"mount --bind {folder.FolderPath} {folder.FolderPath} && mount -o remount,bind,ro {folder.FolderPath}", folder.FolderPath, 10, 1);

        Assert.True(exitCode == 4, output);
        Assert.StartsWith(nameof(RecordTrouble.CannotWrite), output, StringComparison.Ordinal);
        using RecordStore store = folder.Open();
        Assert.Equal(3, store.Describe().Photos);
    }

    [PrivateMountFact]
    public void A_new_record_on_a_read_only_disk_is_told_in_a_sentence()
    {
        using var folder = new ScratchFolder();

        (int exitCode, string output) = PrivateMount.Run(
            $"mount -t tmpfs -o ro tmpfs {folder.FolderPath}", Path.Combine(folder.FolderPath, "data"), 10, 1);

        Assert.True(exitCode == 4, output);
        Assert.StartsWith(nameof(RecordTrouble.CannotWrite), output, StringComparison.Ordinal);
    }

    [PrivateMountFact]
    public void A_full_disk_stops_with_a_sentence_and_keeps_every_photo_before()
    {
        using var folder = new ScratchFolder();
        string disk = Path.Combine(folder.FolderPath, "disk");
        string copy = Path.Combine(folder.FolderPath, "copy");
        Directory.CreateDirectory(disk);

        // What the child printed and what lies on the little disk is copied out before the mount goes with its process.
        (int exitCode, string output) = PrivateMount.Run(
            $"mount -t tmpfs -o size=2m tmpfs {disk}", disk, 1, 100_000, $"; e=$?; cp -r {disk} {copy}; exit $e");

        string[] lines = output.Split('\n');
        int committed = lines.Count(line => int.TryParse(line, out _));
        Assert.True(exitCode == 4, output[^Math.Min(output.Length, 2000)..]);
        Assert.Contains(nameof(RecordTrouble.DiskFull), lines);
        Assert.InRange(committed, 20, 5000);
        using RecordStore store = RecordStore.Open(copy, folder.Clock);
        Assert.Empty(store.CheckIntegrity());
        StoreFacts facts = store.Describe();
        Assert.Equal((committed, 3 * committed), (facts.Photos, facts.Leaves));
    }

    private static void Fill(ScratchFolder folder, int photos)
    {
        using RecordStore store = folder.Open();
        Walk walk = store.FindOrAddWalk(store.FindOrAddPlace("Nursery").Id, Some.Day);
        for (int number = 1; number <= photos; number++)
        {
            store.RecordPhoto(Some.Photo(walk.Id, number));
        }
    }
}
