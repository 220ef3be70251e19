using LeafScan.Records;

namespace LeafScan.Trends.NextSteps;

/// <summary>
/// What the leaves of plants say for the advice of a day, kept as long as nothing on the plant's record changed and the day is the same. The
/// advice judges the last weeks without their care, which is another question than the verdict's
/// (<see cref="Verdicts.KeptVerdicts"/>), so that it keeps answers of its own, by the same numbers of change. For a program that runs
/// on and is asked again and again. Safe to use from several threads.
/// </summary>
/// <param name="store">The record.</param>
public sealed class KeptLeafStates(RecordStore store)
{
    // Two hundred plants with six weeks of leaves are some 12,000 leaves.
    private const int PlantsAtOnce = 200;

    private readonly Lock _gate = new();
    private readonly Dictionary<long, (long Change, DateOnly Today, LeafState State)> _kept = [];

    /// <summary>Plants whose leaves had to be read so far, for tests and figures; one read twice counts twice.</summary>
    public int ReadCount { get; private set; }

    /// <summary>The states of some plants, by plant.</summary>
    /// <param name="plants">The plants, as they are on record.</param>
    /// <param name="today">Day for which advice is wanted.</param>
    public IReadOnlyDictionary<long, LeafState> Of(IReadOnlyList<Plant> plants, DateOnly today)
    {
        lock (_gate)
        {
            // The numbers first: what is written while the leaves are read is then read once more next time rather than missed.
            IReadOnlyDictionary<long, long> changes = store.Changes().OfPlants;
            foreach (Plant[] stale in plants.Where(plant => !IsKept(plant.Id)).Chunk(PlantsAtOnce))
            {
                ILookup<long, LeafOnRecord> leaves = LeavesOf(stale, today);
                LeafState[] states = [.. stale.AsParallel().AsOrdered().Select(plant => LeafState.Of(plant, leaves[plant.Id], today))];
                for (int i = 0; i < stale.Length; i++)
                {
                    _kept[stale[i].Id] = (changes.GetValueOrDefault(stale[i].Id), today, states[i]);
                }

                ReadCount += stale.Length;
            }

            return plants.DistinctBy(plant => plant.Id).ToDictionary(plant => plant.Id, plant => _kept[plant.Id].State);

            bool IsKept(long plant) => _kept.TryGetValue(plant, out (long Change, DateOnly Today, LeafState) kept)
                && kept.Change == changes.GetValueOrDefault(plant) && kept.Today == today;
        }
    }

    // Days long ago say nothing of today but when the plant was last seen.
    private ILookup<long, LeafOnRecord> LeavesOf(Plant[] plants, DateOnly today)
    {
        ILookup<long, LeafOnRecord> recent = store.LeavesOfPlants(plants.Select(plant => plant.Id), today.AddDays(-RecordSituation.DaysOfLeaves), today).ToLookup(leaf => leaf.PlantId);
        long[] unseen = [.. plants.Where(plant => !recent.Contains(plant.Id)).Select(plant => plant.Id)];
        return unseen.Length == 0 ? recent : recent.SelectMany(plant => plant).Concat(store.LeavesOfPlants(unseen, null, today)).ToLookup(leaf => leaf.PlantId);
    }
}
