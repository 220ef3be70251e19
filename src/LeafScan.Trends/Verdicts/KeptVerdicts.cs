using LeafScan.Records;

namespace LeafScan.Trends.Verdicts;

/// <summary>
/// The verdicts on all plants, kept as long as nothing that they hang on has changed: the plant's own record, the weather of its place
/// and the untreated plants of its species there. For a program that runs on and is asked again and again; the answers are those of
/// <see cref="PlantJudge"/>. Safe to use from several threads.
/// </summary>
/// <param name="store">The record.</param>
public sealed class KeptVerdicts(RecordStore store)
{
    private readonly Lock _gate = new();
    private readonly Dictionary<long, (Standing Standing, Verdict Verdict)> _kept = [];

    /// <summary>Plants that had to be judged so far, for tests and figures; one judged twice counts twice.</summary>
    public int JudgedCount { get; private set; }

    /// <summary>The verdicts on some plants, by plant. A plant that is not on record has none.</summary>
    /// <param name="plants">Numbers of the plants.</param>
    public IReadOnlyDictionary<long, Verdict> Of(IEnumerable<long> plants)
    {
        lock (_gate)
        {
            // The numbers first: what is written while the plants are read is then judged once more next time rather than missed.
            RecordChanges changes = store.Changes();
            HashSet<long> asked = [.. plants];
            Dictionary<(long Place, string Species), (int Count, long Last)> untreated = UntreatedOf(changes);
            Dictionary<long, (Plant Plant, Standing Standing)> known = store.Plants().Where(plant => asked.Contains(plant.Id))
                .ToDictionary(plant => plant.Id, plant => (plant, StandingOf(plant, changes, untreated)));
            Plant[] stale = [.. known.Values.Where(one => !_kept.TryGetValue(one.Plant.Id, out (Standing Standing, Verdict) kept) || kept.Standing != one.Standing).Select(one => one.Plant)];
            if (stale.Length > 0)
            {
                IReadOnlyList<Verdict> judged = new PlantJudge(store).Judge(stale);
                for (int i = 0; i < stale.Length; i++)
                {
                    _kept[stale[i].Id] = (known[stale[i].Id].Standing, judged[i]);
                }

                JudgedCount += stale.Length;
            }

            return known.Keys.ToDictionary(id => id, id => _kept[id].Verdict);
        }
    }

    // A plant that joins has the newest number of all, one that leaves makes the count smaller: a group that changed never looks the same.
    private static Dictionary<(long, string), (int, long)> UntreatedOf(RecordChanges changes)
        => changes.Untreated.GroupBy(plant => (plant.PlaceId, plant.Species.ToUpperInvariant()))
            .ToDictionary(group => group.Key, group => (group.Count(), group.Max(plant => changes.OfPlants.GetValueOrDefault(plant.PlantId))));

    private static Standing StandingOf(Plant plant, RecordChanges changes, Dictionary<(long Place, string Species), (int Count, long Last)> untreated)
    {
        (int count, long last) = plant.Species is { } species ? untreated.GetValueOrDefault((plant.PlaceId, species.ToUpperInvariant())) : default;
        return new Standing(changes.OfPlants.GetValueOrDefault(plant.Id), changes.OfWeather.GetValueOrDefault(plant.PlaceId), count, last);
    }

    private readonly record struct Standing(long Plant, long Weather, int Untreated, long UntreatedLast);
}
