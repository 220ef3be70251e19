using System.Diagnostics;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

/// <summary>
/// Folders that become read-only while a block is measured: a card's switch, a share's rights, a disk that the system sets to
/// read-only after a fault.
/// </summary>
public sealed class ReadOnlyFolderTests : IDisposable
{
    private const int Photos = 10;

    private readonly TestDoor _door = new();

    [NoPowersFact]
    public async Task A_block_whose_folders_become_read_only_in_the_middle_is_told_and_the_next_run_goes_on_to_the_same_table()
    {
        MakeBlock();
        Ran whole = await NoPowers.RunAsync(Score(_door.At("undisturbed"), _door.At("whole.csv")));
        Assert.True(whole.Code == ExitCode.Done, whole.ToString());

        string data = _door.At("record"), results = _door.MakeFolder("results"), csv = Path.Combine(results, "b.csv");
        Ran stopped = await NoPowers.RunAsync(
            Score(data, csv),
            meanwhile: () => Until(() => PhotosOnRecord(data) >= 2, () =>
            {
                NoPowers.ReadOnly(results, true);
                NoPowers.ReadOnly(data, true);
            }));
        Assert.True(stopped.Code == ExitCode.StoreTrouble, stopped.ToString());
        AssertToldInWords(stopped, csv);
        Assert.False(File.Exists(csv));

        // Again, while they are still read-only: nothing is lost and nothing is half done.
        Ran again = await NoPowers.RunAsync(Score(data, csv));
        Assert.True(again.Code == ExitCode.StoreTrouble, again.ToString());
        AssertToldInWords(again, data);

        NoPowers.ReadOnly(results, false);
        NoPowers.ReadOnly(data, false);
        int safe = PhotosOnRecord(data);
        Ran rest = await NoPowers.RunAsync(Score(data, csv));
        Assert.True(rest.Code == ExitCode.Done, rest.ToString());
        Assert.Contains($"{Photos - safe} new, {safe} already here", rest.Err, StringComparison.Ordinal);
        Assert.Equal(await File.ReadAllTextAsync(_door.At("whole.csv")), await File.ReadAllTextAsync(csv));
        using RecordStore store = RecordStore.Open(data, TimeProvider.System);
        Assert.Empty(store.CheckIntegrity());
    }

    [NoPowersFact]
    public async Task A_folder_of_masks_that_becomes_read_only_in_the_middle_is_told_by_its_name()
    {
        MakeBlock();
        string masks = _door.MakeFolder("masks");
        Ran ran = await NoPowers.RunAsync(
            ["measure", _door.At("block"), "--jobs", "1", "--masks", masks, "--json", _door.At("readings.json")],
            meanwhile: () => Until(() => Directory.EnumerateFiles(masks, "*.mask.png").Count() >= 2, () => NoPowers.ReadOnly(masks, true)));
        Assert.True(ran.Code == ExitCode.StoreTrouble, ran.ToString());
        AssertToldInWords(ran, masks);
        NoPowers.ReadOnly(masks, false);
        Assert.All(Directory.EnumerateFiles(masks), file => Assert.EndsWith(".mask.png", file, StringComparison.Ordinal));
    }

    private static void AssertToldInWords(Ran ran, string path)
    {
        string told = ran.Err.Split('\n').Last(line => line.Length > 0);
        Assert.Contains(path, told, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", ran.Err, StringComparison.Ordinal);
        Assert.DoesNotContain("mistake of its own", ran.Err, StringComparison.Ordinal);
    }

    private static void Until(Func<bool> happened, Action then)
    {
        long start = Stopwatch.GetTimestamp();
        while (!happened())
        {
            Assert.True(Stopwatch.GetElapsedTime(start) < TimeSpan.FromMinutes(5), "nothing was measured within five minutes");
            Thread.Sleep(10);
        }

        then();
    }

    private string[] Score(string data, string csv) => ["score", _door.At("block"), "--block", "B", "--date", "2026-07-02", "--jobs", "1", "--data-dir", data, "--csv", csv];

    private void MakeBlock()
    {
        for (int i = 1; i <= Photos; i++)
        {
            SomePhoto.Leaf(_door.At($"block/R1-P{i}.jpg"), i, 160, 120);
        }
    }

    private static int PhotosOnRecord(string data)
    {
        if (!RecordStore.Exists(data))
        {
            return 0;
        }

        try
        {
            using RecordStore store = RecordStore.Open(data, TimeProvider.System);
            return (int)store.Describe().Photos;
        }
        catch (RecordException)
        {
            // Just being begun.
            return 0;
        }
    }

    public void Dispose()
    {
        foreach (string folder in (string[])["record", "results", "masks"])
        {
            if (Directory.Exists(_door.At(folder)))
            {
                NoPowers.ReadOnly(_door.At(folder), false);
            }
        }

        _door.Dispose();
    }
}
