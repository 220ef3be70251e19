using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Xunit.Abstractions;

namespace LeafScan.Records.Tests;

/// <summary>Processes that write at once and processes that are killed while they write.</summary>
public sealed class CutOffTests(ITestOutputHelper output)
{
    [Fact]
    public async Task Two_processes_writing_at_once_lose_nothing()
    {
        using var folder = new ScratchFolder();
        using Process first = Child.Start(folder.FolderPath, 1, 150);
        using Process second = Child.Start(folder.FolderPath, 101, 150);
        string[] said = await Task.WhenAll(first.StandardOutput.ReadToEndAsync(), second.StandardOutput.ReadToEndAsync());
        await Task.WhenAll(first.WaitForExitAsync(), second.WaitForExitAsync());

        Assert.True(first.ExitCode == 0 && second.ExitCode == 0, string.Join('\n', said));
        using RecordStore store = folder.Open();
        StoreFacts facts = store.Describe();

        // 1..150 and 101..250: the fifty photos that both bring are kept once.
        Assert.Equal((250, 250, 750, 1, 1), (facts.Photos, facts.Readings, facts.Leaves, facts.Plants, facts.Walks));
        Assert.Empty(store.CheckIntegrity());
    }

    [Fact]
    public async Task A_writer_waits_for_another_and_then_goes_on()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();
        using SqliteConnection other = OpenPlain(folder);
        SqliteTransaction held = other.BeginTransaction();
        Task<Place> waiting = Task.Run(() => store.FindOrAddPlace("Nursery"));

        await Task.Delay(500);
        Assert.False(waiting.IsCompleted);
        held.Dispose();
        Assert.Equal("Nursery", (await waiting.WaitAsync(TimeSpan.FromSeconds(20))).Name);
    }

    [Fact]
    public void A_writer_that_waited_too_long_says_so_and_changes_nothing()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open(new RecordOptions { LockWait = TimeSpan.FromSeconds(1) });
        using SqliteConnection other = OpenPlain(folder);
        using (other.BeginTransaction())
        {
            RecordException trouble = Assert.Throws<RecordException>(() => store.FindOrAddPlace("Nursery"));
            Assert.Equal(RecordTrouble.Busy, trouble.Trouble);
            Assert.Contains("run this one again", trouble.Message, StringComparison.Ordinal);
        }

        Assert.Empty(store.Places());
    }

    /// <summary>LEAFSCAN_KILLS raises the number; twenty keep the test short.</summary>
    [Fact]
    public async Task A_process_killed_while_writing_loses_no_committed_photo_and_leaves_no_half_one()
    {
        int kills = int.TryParse(Environment.GetEnvironmentVariable("LEAFSCAN_KILLS"), CultureInfo.InvariantCulture, out int asked) ? asked : 20;
        var random = new Random(20260603);
        using var folder = new ScratchFolder();
        var committed = new HashSet<int>();
        int next = 1;
        for (int kill = 0; kill < kills; kill++)
        {
            using Process child = Child.Start(folder.FolderPath, next, 100_000);
            var said = new List<string>();
            var open = new TaskCompletionSource();
            Task reading = Task.Run(async () =>
            {
                while (await child.StandardOutput.ReadLineAsync() is { } line)
                {
                    said.Add(line);
                    open.TrySetResult();
                }
            });

            // One kill in five falls into starting and opening the store, the others into writing, however slow the machine is.
            if (kill % 5 != 0)
            {
                await open.Task.WaitAsync(TimeSpan.FromSeconds(60));
            }

            await Task.Delay(random.Next(20, 350));
            child.Kill();
            await child.WaitForExitAsync();
            await reading;
            foreach (string line in said.Where(line => line != "open"))
            {
                committed.Add(int.Parse(line, CultureInfo.InvariantCulture));
            }

            next = committed.Count == 0 ? 1 : committed.Max() + 2;
        }

        using RecordStore store = folder.Open();
        Assert.Empty(store.CheckIntegrity());
        output.WriteLine($"{kills} kills, {committed.Count} photos told as committed, {store.Photos().Count} kept");
        HashSet<string> kept = store.Photos().Select(photo => photo.Sha256).ToHashSet();
        Assert.NotEmpty(committed);
        Assert.All(committed, number => Assert.Contains(Some.Sha(number), kept));
        StoreFacts facts = store.Describe();
        Assert.Equal((facts.Photos, facts.Photos, 3 * facts.Photos), (kept.Count, facts.Readings, facts.Leaves));
        Assert.InRange(kept.Count, committed.Count, committed.Count + kills);
    }

    private static SqliteConnection OpenPlain(ScratchFolder folder)
    {
        var connection = new SqliteConnection($"Data Source={folder.StoreFile};Pooling=False");
        connection.Open();
        return connection;
    }
}
