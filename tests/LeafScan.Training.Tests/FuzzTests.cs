using System.Text;
using LeafScan.Training.Fuzz;

namespace LeafScan.Training.Tests;

/// <summary>The short form of <c>leafscan-training fuzz</c>; the long form's figures stand in docs/speed.md.</summary>
public sealed class FuzzTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-fuzz-test-").FullName;

    [Fact]
    public void No_damaged_file_crashes_hangs_fills_the_memory_or_passes_for_sound()
    {
        FuzzOptions options = new() { Files = 60, Seed = 20261126 };
        FuzzRun run = new(options);
        using FuzzTargets targets = new(_folder);
        foreach (IFuzzTarget target in targets.All)
        {
            run.Try(target, target == targets.Photos ? options.Files : options.FilesElsewhere, _ => { }, CancellationToken.None);
        }

        Assert.True(run.Findings.Count == 0, string.Join('\n', run.Findings));
        Assert.Equal(targets.All.Count, run.Tallies.Count);
        Assert.All(run.Tallies, tally => Assert.True(tally.Files >= options.FilesElsewhere));

        // Damage that damages nothing would find nothing: photos must come out both ways.
        IReadOnlyDictionary<string, int> photos = run.Tallies[0].Fates;
        Assert.True(photos["refused"] > 0 && photos["read, with damagedFile"] > 0);
    }

    [Fact]
    public void Sound_files_are_taken_whole_by_every_way_in()
    {
        RecordOriginal record = new(_folder);
        Assert.Equal("taken in", new ArchiveTarget(record, _folder).Try(new FuzzFile("none", record.Archive, 0)).Fate);
        Assert.Equal("taken", new BackupTarget(record, _folder).Try(new FuzzFile("none", record.Backup, 0)).Fate);
        Assert.Equal("all questions answered", new RecordFileTarget(record, _folder).Try(new FuzzFile("none", record.Record, 0)).Fate);
        using SettingsTarget settings = new(record, _folder);
        Assert.Equal(("read", null), Told(settings.Try(new FuzzFile("none", Encoding.UTF8.GetBytes(record.SettingsFile), 0))));
        using PhotoTarget photos = new(_folder);
        List<PictureOriginal> originals = PictureOriginals.Make(_folder);
        for (int i = 0; i < originals.Count; i++)
        {
            Assert.Equal((originals[i].Format is null ? "refused" : "read, picture as it was", (string?)null), Told(photos.Try(new FuzzFile("none", originals[i].Bytes, i))));
        }
    }

    [Fact]
    public void What_crashes_or_takes_too_long_is_found_and_kept_and_can_be_made_again_from_its_number()
    {
        string keep = Path.Combine(_folder, "kept");
        FuzzRun run = new(new FuzzOptions { MostSeconds = 0.1, Keep = keep });
        using BadTarget bad = new();
        run.Try(bad, 20, _ => { }, CancellationToken.None);
        Assert.Contains(run.Findings, finding => finding.Fault.StartsWith("took ", StringComparison.Ordinal));
        Assert.Contains(run.Findings, finding => finding.Fault.Contains("NotSupportedException", StringComparison.Ordinal));
        Assert.Equal(run.Findings.Count, run.Tallies[0].Faults);
        Assert.Equal(run.Findings.Count, Directory.GetFiles(keep).Length);

        FuzzRun again = new(new FuzzOptions { MostSeconds = 0.1 });
        again.Try(bad, 20, _ => { }, CancellationToken.None);
        Assert.Equal(run.Findings.Select(finding => finding.Number), again.Findings.Select(finding => finding.Number));
    }

    private static (string, string?) Told(FuzzResult result) => (result.Fate, result.Fault);

    private sealed class BadTarget : IFuzzTarget
    {
        public string Name => "bad";

        public FuzzFile Next(Random random) => new("any", [(byte)random.Next(8)], 0);

        public FuzzResult Try(FuzzFile file)
        {
            switch (file.Bytes[0])
            {
                case 0:
                    throw new NotSupportedException();
                case 1:
                    // Work, not sleep: waiting for others is no fault of a file's.
                    for (TimeSpan end = Environment.CpuUsage.TotalTime + TimeSpan.FromSeconds(0.3); Environment.CpuUsage.TotalTime < end;)
                    {
                        Thread.SpinWait(1000);
                    }

                    break;
            }

            return new FuzzResult("fine");
        }

        public void Dispose()
        {
        }
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
