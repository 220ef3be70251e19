using System.Diagnostics;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

/// <summary>A block whose run is killed, or whose disk fills up.</summary>
public sealed class ScoreProcessTests : IDisposable
{
    // Long form: LEAFSCAN_KILLS=100; its figures stand in docs/speed.md.
    private static readonly int Kills = int.TryParse(Environment.GetEnvironmentVariable("LEAFSCAN_KILLS"), out int kills) ? kills : 5;

    private readonly TestDoor _door = new();

    [Fact]
    public async Task Killed_at_random_and_run_again_a_block_ends_with_the_same_table()
    {
        MakeBlock(12);
        string whole = await Table(_door.At("undisturbed"));
        Random random = new(9);
        string data = _door.At("record");
        for (int i = 0; i < Kills; i++)
        {
            using Process run = Start(data, _door.At("killed.csv"));
            await Task.Delay(random.Next(600, 3000));
            run.Kill(entireProcessTree: true);
            await run.WaitForExitAsync();
        }

        Assert.Equal(whole, await Table(data));
        using RecordStore store = RecordStore.Open(data, TimeProvider.System);
        Assert.Empty(store.CheckIntegrity());
        Assert.Equal(12, store.Describe().Photos);
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

    private void MakeBlock(int plants)
    {
        for (int i = 1; i <= plants; i++)
        {
            SomePhoto.Leaf(_door.At($"block/R{1 + (i / 6)}-P{i}.jpg"), i, 320, 240);
        }
    }

    private async Task<string> Table(string data)
    {
        string csv = _door.At("table.csv");
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
