using LeafScan.Records;

namespace LeafScan.Trends.NextSteps;

/// <summary>What was done to a plant and counted on it.</summary>
/// <param name="Care">Care entries, oldest first.</param>
/// <param name="Taps">Taps, oldest first.</param>
public sealed record PlantEntries(IReadOnlyList<CareEntry> Care, IReadOnlyList<TapOnRecord> Taps);

/// <summary>
/// Care and taps of plants, kept as long as nothing on the plant's record changed, by the same numbers of change as
/// <see cref="KeptLeafStates"/>: a season of a nursery has tens of thousands of taps, and reading them for each look at the next steps took
/// most of its time. Safe to use from several threads.
/// </summary>
/// <param name="store">The record.</param>
public sealed class KeptEntries(RecordStore store)
{
    private readonly Lock _gate = new();
    private readonly Dictionary<long, (long Change, PlantEntries Entries)> _kept = [];

    /// <summary>Plants whose entries had to be read so far, for tests and figures.</summary>
    public int ReadCount { get; private set; }

    /// <summary>The entries of some plants, by plant.</summary>
    /// <param name="plants">Numbers of plants; each once in the answer.</param>
    public IReadOnlyDictionary<long, PlantEntries> Of(IReadOnlyCollection<long> plants)
    {
        lock (_gate)
        {
            // The numbers first: what is written while the entries are read is then read once more next time rather than missed.
            IReadOnlyDictionary<long, long> changes = store.Changes().OfPlants;
            long[] stale = [.. plants.Distinct().Where(plant => !_kept.TryGetValue(plant, out (long Change, PlantEntries) kept) || kept.Change != changes.GetValueOrDefault(plant))];
            if (stale.Length > 0)
            {
                ILookup<long, CareEntry> care = store.CareOfPlants(stale);
                ILookup<long, TapOnRecord> taps = store.TapsOfPlants(stale);
                foreach (long plant in stale)
                {
                    _kept[plant] = (changes.GetValueOrDefault(plant), new PlantEntries([.. care[plant]], [.. taps[plant]]));
                }

                ReadCount += stale.Length;
            }

            return plants.Distinct().ToDictionary(plant => plant, plant => _kept[plant].Entries);
        }
    }
}
