using System.Diagnostics;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;
using Xunit.Abstractions;

namespace LeafScan.Cli.Tests;

/// <summary>
/// A block whose run is killed, or whose disk fills up. Long form: LEAFSCAN_KILLS=100, a block of 60 instead of 12; its figures
/// stand in docs/speed.md.
/// </summary>
public sealed class ScoreProcessTests(ITestOutputHelper told) : IDisposable
{
    private const int LongFormFrom = 20;

    private static readonly int Kills = int.TryParse(Environment.GetEnvironmentVariable("LEAFSCAN_KILLS"), out int kills) ? kills : 3;

    // Another seed, other moments: the long form may be run in parts.
    private static readonly int Seed = int.TryParse(Environment.GetEnvironmentVariable("LEAFSCAN_KILLS_SEED"), out int seed) ? seed : 9;

    private readonly TestDoor _door = new();

    [Fact]
    public async Task Killed_at_a_random_moment_and_run_again_a_block_ends_with_the_same_table_each_time()
    {
        int photos = Kills >= LongFormFrom ? 60 : 12;
        MakeBlock(photos);
        long start = Stopwatch.GetTimestamp();
        string whole = await Table(_door.At("undisturbed"));
        TimeSpan usual = Stopwatch.GetElapsedTime(start);
        Random random = new(Seed);
        int[] fate = new int[3];
        for (int i = 0; i < Kills; i++)
        {
            string data = _door.At($"record-{i}");
            TimeSpan after = usual * random.NextDouble();
            using (Process run = Start(data, _door.At("killed.csv")))
            {
                await Task.Delay(after);
                run.Kill(entireProcessTree: true);
                await run.WaitForExitAsync();
            }

            long safe = OnRecord(data);
            fate[safe == 0 ? 0 : safe < photos ? 1 : 2]++;
            string again = await Table(data);
            Assert.True(whole == again, $"Kill {i}, after {after.TotalSeconds:0.00} s with {safe} photos on record:\n{again}\ninstead of\n{whole}");
            using (RecordStore store = RecordStore.Open(data, TimeProvider.System))
            {
                Assert.Empty(store.CheckIntegrity());
                Assert.Equal(photos, store.Describe().Photos);
            }

            Directory.Delete(data, recursive: true);
        }

        told.WriteLine(
            $"{Kills} kills of a block of {photos}, undisturbed {usual.TotalSeconds:0.0} s: {fate[0]} before the first photo was on record, {fate[1]} in the middle, {fate[2]} with all photos on record.");
    }

    [OwnDiskFact]
    public async Task A_disk_that_fills_up_is_said_and_after_making_room_the_run_goes_on_to_the_same_table()
    {
        MakeBlock(12);
        string whole = await Table(_door.At("undisturbed"));
        string disk = _door.MakeFolder("disk");
        string program = Path.Combine(AppContext.BaseDirectory, "leafscan.dll");
        string first = $"dotnet exec '{program}' score '{_door.At("block")}' --block B --date 2026-07-02 --jobs 1 --data-dir {disk}";
        Ran ran = await OwnDisk.RunAsync(
            $"mount -t tmpfs -o size=256k tmpfs {disk} && {{ {first}; echo first run ended with $? >&2; mount -o remount,size=64m {disk}; }}",
            "score", _door.At("block"), "--block", "B", "--date", "2026-07-02", "--data-dir", disk, "--csv", "-");
        Assert.Contains("disk is full", ran.Err, StringComparison.Ordinal);
        Assert.Contains($"first run ended with {ExitCode.StoreTrouble}", ran.Err, StringComparison.Ordinal);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Equal(whole, ran.Out);
    }

    // Four fifths are named by row and position; the rest follow a photo of a tag, taken a second apart.
    private void MakeBlock(int photos)
    {
        int named = photos * 4 / 5;
        for (int i = 1; i <= named; i++)
        {
            SomePhoto.Leaf(_door.At($"block/R{1 + (i / 6)}-P{i}.jpg"), i, 160, 120);
        }

        DateTime nine = new(2026, 7, 2, 9, 0, 0);
        SomePhoto.TakenAt(SomePhoto.Tag(_door.At("block/IMG_0001.jpg"), "B07"), nine);
        for (int i = named + 2; i <= photos; i++)
        {
            SomePhoto.TakenAt(SomePhoto.Leaf(_door.At($"block/IMG_{i:0000}.jpg"), i, 320, 240), nine.AddSeconds(i));
        }
    }

    private static long OnRecord(string data)
    {
        if (!RecordStore.Exists(data))
        {
            return 0;
        }

        using RecordStore store = RecordStore.Open(data, TimeProvider.System);
        return store.Describe().Photos;
    }

    private async Task<string> Table(string data)
    {
        string csv = _door.At("table.csv");
        File.Delete(csv);
        using Process run = Start(data, csv);
        Task<string> errors = run.StandardError.ReadToEndAsync();
        await run.WaitForExitAsync();
        Assert.True(run.ExitCode == ExitCode.Done, await errors);
        return await File.ReadAllTextAsync(csv);
    }

    private Process Start(string data, string csv) => OwnDisk.Start(
        "dotnet", "exec", Path.Combine(AppContext.BaseDirectory, "leafscan.dll"), "score", _door.At("block"), "--block", "B", "--date", "2026-07-02", "--data-dir", data, "--csv", csv);

    public void Dispose() => _door.Dispose();
}
