using System.Diagnostics;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Sampling;
using LeafScan.Trends.Thresholds;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Training.Stores;

/// <summary>How long the questions take that the commands and the page ask.</summary>
internal static class StoreBench
{
    private const int Seed = 1;

    /// <summary>One question.</summary>
    /// <param name="Name">What is asked.</param>
    /// <param name="FirstMs">Time of the first asking, in milliseconds: code not compiled, pages of the file not yet in this process.</param>
    /// <param name="MedianMs">Median of the askings after it.</param>
    /// <param name="WorkMs">Median of the processor time of those askings, all threads together: what a busy machine does not change.</param>
    /// <param name="FirstWorkMs">Processor time of the first asking, all threads together, compiling included.</param>
    internal sealed record Timing(string Name, double FirstMs, double MedianMs, double WorkMs, double FirstWorkMs);

    /// <summary>Asks each question of an opened record several times.</summary>
    public static IReadOnlyList<Timing> Run(RecordStore store, StoreSize size, int repeats)
    {
        IReadOnlyList<Plant> plants = store.Plants();
        Plant one = plants[plants.Count / 2];
        IReadOnlyList<Plant> block = store.Plants("Hill nursery", "Block 3");
        Month from = Month.Of(StoreSize.DayOf(size.Walks / 3)), to = Month.Of(StoreSize.DayOf(size.Walks - 3));
        KeptVerdicts kept = new(store);
        KeptLeafStates states = new(store);
        KeptEntries entries = new(store);
        return
        [
            Time("series of a block", repeats, () => GroupSeries.Of(store.DamageOfPlants(block.Select(plant => plant.Id)), null, () => new Random(Seed)).Count),
            Time("series of one plant", repeats, () => Series.OfPlant(store.LeavesOfPlant(one.Id), null, new Random(Seed)).Count),
            Time("leaves of a block, all walks", repeats, () => store.LeavesOfPlants(block.Select(plant => plant.Id)).Count),
            Time("month against month, a block", repeats, () => Compare(store, block, from, to)),
            Time("overview of all plants", repeats, () => store.PlantOverviews().Count),
            Time("overview with intervals", repeats, () => Overview(store)),
            Time("verdict of one plant", repeats, () => new PlantJudge(store).Judge(one).Because.Count),
            Time("advice for all plants, then kept", repeats, () => Advise(store, states, entries, plants, StoreSize.DayOf(size.Walks - 1).AddDays(1))),
            Time("verdicts of all plants, then kept", repeats, () => kept.Of(plants.Select(plant => plant.Id)).Count),
        ];
    }

    private static int Compare(RecordStore store, IReadOnlyList<Plant> block, Month from, Month to)
    {
        long[] ids = [.. block.Select(plant => plant.Id)];
        ILookup<long, LeafOnRecord> leaves = store.LeavesOfPlants(ids, from.FirstDay, from.LastDay).Concat(store.LeavesOfPlants(ids, to.FirstDay, to.LastDay)).ToLookup(leaf => leaf.PlantId);
        GroupComparison together = GroupComparison.Of(leaves.SelectMany(plant => plant), from, to);
        return together.PlantCount + block.AsParallel().AsOrdered().Select(plant => MonthComparison.Of(leaves[plant.Id], from, to, null, () => new Random(Seed))).ToList().Count;
    }

    // What /api/next does before it writes its answer.
    private static int Advise(RecordStore store, KeptLeafStates states, KeptEntries entries, IReadOnlyList<Plant> plants, DateOnly today)
    {
        PlantAdviser adviser = new(store, RecordThresholds.Load(store), states, entries);
        TaylorLaw? spread = adviser.SpreadAt(plants[0].PlaceId);
        return adviser.Advise(plants, today).Sum(advice => advice.Advice.IsRest ? 1 : TapPlan.Of(advice.Situation.Tap, spread).Branches);
    }

    private static int Overview(RecordStore store)
    {
        ILookup<long, LeafDamage> last = store.DamageOfLastWalks().ToLookup(leaf => leaf.PlantId);
        return store.PlantOverviews().AsParallel().AsOrdered().Select(plant => PlantLastWalk.Of([.. last[plant.Plant.Id]])).ToList().Count;
    }

    private static Timing Time(string name, int repeats, Func<int> question)
    {
        (double first, double firstWork) = Once(question);
        (double Wall, double Work)[] later = [.. Enumerable.Range(0, repeats).Select(_ => Once(question))];
        return new Timing(name, first, Median(later.Select(one => one.Wall)), Median(later.Select(one => one.Work)), firstWork);
    }

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }

    private static (double WallMs, double WorkMs) Once(Func<int> question)
    {
        TimeSpan work = Environment.CpuUsage.TotalTime;
        long start = Stopwatch.GetTimestamp();
        if (question() == 0)
        {
            throw new InvalidOperationException("A question found nothing, so its time means nothing.");
        }

        double wall = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        return (wall, (Environment.CpuUsage.TotalTime - work).TotalMilliseconds);
    }
}
