using System.Diagnostics;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

/// <summary>What only a process of its own can show: signals, read-only and full disks.</summary>
public sealed class ProcessTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Theory]
    [InlineData("INT")]
    [InlineData("TERM")]
    public async Task A_signal_ends_a_walk_with_130_and_a_sound_record(string signal)
    {
        for (int i = 0; i < 30; i++)
        {
            SomePhoto.Leaf(_door.At($"june/B1/{i}.jpg"), i, 900, 600);
        }

        string data = _door.At("record");
        // A shell that starts things in the background may have them ignore SIGINT, and what they start inherits that.
        using Process walk = Start("env", "--default-signal=INT,TERM", "dotnet", "exec", OwnProgram, "walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18", "--jobs", "1", "--data-dir", data);
        Task<string> errors = walk.StandardError.ReadToEndAsync();
        Task<string> output = walk.StandardOutput.ReadToEndAsync();
        while (!walk.HasExited && PhotosIn(data) == 0)
        {
            await Task.Delay(50);
        }

        using (Process kill = Start("kill", "-" + signal, walk.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)))
        {
            await kill.WaitForExitAsync();
        }

        await walk.WaitForExitAsync();
        Assert.True(walk.ExitCode == ExitCode.Stopped, $"{walk.ExitCode}\n{await output}\n{await errors}");
        Assert.Contains("Stopped: ", await errors, StringComparison.Ordinal);
        using RecordStore store = RecordStore.Open(data, TimeProvider.System);
        Assert.Empty(store.CheckIntegrity());
        Assert.InRange(store.Describe().Photos, 1, 29);
        Assert.Equal(RunEnding.Stopped, store.Runs()[0].Ending);
    }

    [OwnDiskFact]
    public async Task A_read_only_data_folder_is_one_sentence_and_code_4()
    {
        SomePhoto.Leaf(_door.At("june/B1/leaf.jpg"));
        string disk = _door.MakeFolder("disk");
        Ran ran = await OwnDisk.RunAsync(
            $"mount -t tmpfs -o ro tmpfs {disk}", "walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18", "--data-dir", Path.Combine(disk, "data"));
        Assert.True(ran.Code == ExitCode.StoreTrouble, ran.ToString());
        Assert.Contains("cannot be written", ran.Err, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", ran.Err, StringComparison.Ordinal);
    }

    [OwnDiskFact]
    public async Task A_disk_that_fills_up_under_the_record_is_said_and_what_was_added_stays()
    {
        for (int i = 0; i < 12; i++)
        {
            SomePhoto.Leaf(_door.At($"june/B1/{i}.jpg"), i);
        }

        string disk = _door.MakeFolder("disk");
        string copy = _door.At("copy");
        Ran ran = await OwnDisk.RunAsync(
            $"mount -t tmpfs -o size=256k tmpfs {disk} && trap 'cp -r {disk} {copy}' EXIT",
            "walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18", "--data-dir", disk);
        Assert.True(ran.Code == ExitCode.StoreTrouble, ran.ToString());
        Assert.Contains("disk is full", ran.Err, StringComparison.Ordinal);
        using RecordStore store = RecordStore.Open(copy, TimeProvider.System);
        Assert.Empty(store.CheckIntegrity());
    }

    [OwnDiskFact]
    public async Task A_disk_that_is_full_under_the_masks_is_said_and_no_half_mask_stays()
    {
        string[] photos = [.. Enumerable.Range(0, 4).Select(i => SomePhoto.Leaf(_door.At($"{i}.jpg"), i, 1600, 1200))];
        string disk = _door.MakeFolder("disk");
        string listing = _door.At("listing");
        Ran ran = await OwnDisk.RunAsync(
            [$"mount -t tmpfs -o size=40k tmpfs {disk} && trap 'find {disk} -type f > {listing}' EXIT", "measure", .. photos, "--masks", disk]);
        Assert.True(ran.Code == ExitCode.StoreTrouble, ran.ToString());
        Assert.Contains("could not be written", ran.Err, StringComparison.Ordinal);
        Assert.All(await File.ReadAllLinesAsync(listing), file => Assert.EndsWith(".mask.png", file, StringComparison.Ordinal));
    }

    private static string OwnProgram => Path.Combine(AppContext.BaseDirectory, "leafscan.dll");

    private static long PhotosIn(string data)
    {
        if (!RecordStore.Exists(data))
        {
            return 0;
        }

        try
        {
            using RecordStore store = RecordStore.Open(data, TimeProvider.System);
            return store.Describe().Photos;
        }
        catch (RecordException)
        {
            // The walk is just beginning its file.
            return 0;
        }
    }

    private static Process Start(string program, params string[] words) => OwnDisk.Start(program, words);

    public void Dispose() => _door.Dispose();
}
