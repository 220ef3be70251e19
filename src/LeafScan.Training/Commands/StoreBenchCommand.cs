using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using LeafScan.Records;
using LeafScan.Training.Stores;

namespace LeafScan.Training.Commands;

/// <summary>store-bench: how large a record gets and how fast it answers.</summary>
internal static class StoreBenchCommand
{
    public static Command Build()
    {
        Option<int> plants = new("--plants") { Description = "Plants, a multiple of 100 from 300; 2000 by default.", DefaultValueFactory = _ => 2000 };
        Option<int> walks = new("--walks") { Description = "Walks, 8 to 60; 24 by default.", DefaultValueFactory = _ => 24 };
        Option<int> leaves = new("--leaves") { Description = "Leaves of a plant on each walk, 2 to 50; 10 by default.", DefaultValueFactory = _ => 10 };
        Option<int> points = new("--outline-points") { Description = "Corners of each outline; 40 by default.", DefaultValueFactory = _ => 40 };
        Option<int> specks = new("--specks") { Description = "Specks of each leaf; 40 by default.", DefaultValueFactory = _ => 40 };
        Option<int> repeats = new("--repeats") { Description = "How often each question is asked after the first time; 9 by default.", DefaultValueFactory = _ => 9 };
        Option<string?> keep = new("--keep") { Description = "Empty folder in which the record is made and left.", HelpName = "DIR" };
        Option<string?> use = new("--use") { Description = "Folder of a record that --keep left: asked only, not made and not removed. Give its numbers as when it was made.", HelpName = "DIR" };
        Command command = new("store-bench", "Makes a large invented record and measures its size and how fast it answers.")
        {
            plants, walks, leaves, points, specks, repeats, keep, use,
        };
        command.SetAction(parsed => Run(
            new StoreSize { Plants = parsed.GetValue(plants), Walks = parsed.GetValue(walks), Leaves = parsed.GetValue(leaves), OutlinePoints = parsed.GetValue(points), Specks = parsed.GetValue(specks) },
            parsed.GetValue(repeats), parsed.GetValue(keep), parsed.GetValue(use)));
        return command;
    }

    private static int Run(StoreSize size, int repeats, string? keep, string? use)
    {
        if (size.Plants % StoreMaker.PlantsOfBlock != 0 || size.Plants is < 300 or > 100_000 || size.Walks is < 8 or > 60 || size.Leaves is < 2 or > 50
            || size.OutlinePoints is < 3 or > 5000 || size.Specks is < 0 or > 5000 || repeats is < 1 or > 1000)
        {
            Console.Error.WriteLine("A number is out of its range (see --help); nothing was made.");
            return 1;
        }

        if (keep is not null && Directory.Exists(keep) && Directory.EnumerateFileSystemEntries(keep).Any())
        {
            Console.Error.WriteLine($"The folder {keep} is not empty; nothing was made.");
            return 1;
        }

        if (use is not null)
        {
            using RecordStore made = RecordStore.Open(use, TimeProvider.System, new RecordOptions { CreateIfMissing = false });
            Report(made, size, StoreBench.Run(made, size, repeats));
            return 0;
        }

        string folder = keep ?? Directory.CreateTempSubdirectory("leafscan-store-").FullName;
        try
        {
            long start = Stopwatch.GetTimestamp();
            StoreMaker.Make(folder, size);
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Made in {Stopwatch.GetElapsedTime(start).TotalSeconds:0.0} s."));
            using RecordStore store = RecordStore.Open(folder, TimeProvider.System);
            Report(store, size, StoreBench.Run(store, size, repeats));
            IReadOnlyList<string> faults = store.CheckIntegrity();
            Console.Out.WriteLine(faults.Count == 0 ? "Integrity: sound." : $"Integrity: {faults[0]}");
            return faults.Count == 0 ? 0 : 1;
        }
        finally
        {
            if (keep is null)
            {
                Directory.Delete(folder, recursive: true);
            }
        }
    }

    private static void Report(RecordStore store, StoreSize size, IReadOnlyList<StoreBench.Timing> timings)
    {
        StoreFacts facts = store.Describe();
        Console.Out.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{facts.Plants} plants, {facts.Walks} walks, {facts.Leaves} leaves of {size.OutlinePoints} corners and {size.Specks} specks: {facts.ByteLength / 1e6:0.0} MB, {facts.ByteLength / (double)facts.Leaves:0} bytes a leaf."));
        Console.Out.WriteLine("| question | first, ms | median, ms | first work, ms | work, ms |");
        Console.Out.WriteLine("| --- | --- | --- | --- | --- |");
        foreach (StoreBench.Timing timing in timings)
        {
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {timing.Name} | {timing.FirstMs:0} | {timing.MedianMs:0} | {timing.FirstWorkMs:0} | {timing.WorkMs:0} |"));
        }
    }
}
