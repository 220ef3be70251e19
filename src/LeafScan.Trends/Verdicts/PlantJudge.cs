using LeafScan.Records;

namespace LeafScan.Trends.Verdicts;

/// <summary>Judges plants by all that is on record; what several of them need is read once. For one command or page: it does not see what is written later.</summary>
/// <param name="store">The record.</param>
/// <param name="kind">leaf, twig or plant; null for each plant's own. Check plants are always judged by the kind of the plant they stand beside.</param>
public sealed class PlantJudge(RecordStore store, string? kind = null)
{
    // Two hundred plants of a whole season are some 50,000 leaves, 30 MB.
    private const int PlantsAtOnce = 200;

    private readonly Dictionary<long, IReadOnlyList<CareEntry>> _care = [];
    private readonly Dictionary<(long Place, string Species), IReadOnlyList<Plant>> _untreated = [];
    private readonly Dictionary<(long Plant, string? Kind), PlantHistory> _checks = [];
    private readonly Dictionary<long, IReadOnlyList<WeatherDay>> _weather = [];

    /// <summary>Judges one plant.</summary>
    public Verdict Judge(Plant plant) => CareVerdict.Judge(HistoryOf(plant));

    /// <summary>Judges many plants, in their order: what is on record of them is read in a few questions, not plant by plant.</summary>
    public IReadOnlyList<Verdict> Judge(IReadOnlyList<Plant> plants)
    {
        List<Verdict> all = new(plants.Count);
        foreach (Plant[] some in plants.Chunk(PlantsAtOnce))
        {
            long[] ids = [.. some.Select(plant => plant.Id)];
            ILookup<long, CareEntry> care = store.CareOfPlants(ids);
            foreach (long id in ids)
            {
                _care[id] = [.. care[id]];
            }

            ILookup<long, LeafOnRecord> leaves = store.LeavesOfPlants(ids, kind: kind).ToLookup(leaf => leaf.PlantId);
            ILookup<long, TapOnRecord> taps = store.TapsOfPlants(ids);
            PlantHistory[] histories = [.. some.Select(plant => Make(plant, ChecksOf(plant, leaves[plant.Id].FirstOrDefault()?.Kind ?? kind), leaves[plant.Id], taps[plant.Id]))];
            all.AddRange(histories.AsParallel().AsOrdered().Select(history => CareVerdict.Judge(history)));
        }

        return all;
    }

    /// <summary>All that is known of a plant when it is judged, its check plants included.</summary>
    public PlantHistory HistoryOf(Plant plant)
    {
        IReadOnlyList<LeafOnRecord> leaves = store.LeavesOfPlant(plant.Id, kind);
        return Make(plant, ChecksOf(plant, leaves.Count == 0 ? kind : leaves[0].Kind), leaves, store.TapsOfPlant(plant.Id));
    }

    private List<PlantHistory> ChecksOf(Plant plant, string? ofKind)
    {
        IReadOnlyList<CareEntry> care = CareOf(plant.Id);
        if (plant.Species is null || care.All(entry => entry.What == CareKind.Nothing))
        {
            return [];
        }

        return [.. UntreatedBeside(plant).Where(other => RecordHistory.IsCheck(plant, care, other, CareOf(other.Id))).Select(other => CheckOf(other, ofKind))];
    }

    private IReadOnlyList<Plant> UntreatedBeside(Plant plant)
    {
        (long, string) key = (plant.PlaceId, plant.Species!.ToUpperInvariant());
        if (!_untreated.TryGetValue(key, out IReadOnlyList<Plant>? others))
        {
            // Asked with no plant's own number, so that the answer serves all plants of the species; IsCheck leaves out the plant itself.
            _untreated[key] = others = store.UntreatedBeside(plant with { Id = 0 });
            ILookup<long, CareEntry> care = store.CareOfPlants(others.Select(other => other.Id));
            foreach (Plant other in others)
            {
                _care[other.Id] = [.. care[other.Id]];
            }
        }

        return others;
    }

    private PlantHistory CheckOf(Plant check, string? ofKind)
    {
        if (!_checks.TryGetValue((check.Id, ofKind), out PlantHistory? history))
        {
            _checks[(check.Id, ofKind)] = history = Make(check, [], store.LeavesOfPlant(check.Id, ofKind), store.TapsOfPlant(check.Id));
        }

        return history;
    }

    private PlantHistory Make(Plant plant, List<PlantHistory> checks, IEnumerable<LeafOnRecord> leaves, IEnumerable<TapOnRecord> taps)
        => RecordHistory.Of(plant, leaves, CareOf(plant.Id), checks, null, taps, WeatherOf(plant.PlaceId));

    private IReadOnlyList<CareEntry> CareOf(long plantId)
    {
        if (!_care.TryGetValue(plantId, out IReadOnlyList<CareEntry>? care))
        {
            _care[plantId] = care = store.CareOfPlant(plantId);
        }

        return care;
    }

    private IReadOnlyList<WeatherDay> WeatherOf(long placeId)
    {
        if (!_weather.TryGetValue(placeId, out IReadOnlyList<WeatherDay>? weather))
        {
            _weather[placeId] = weather = store.WeatherOfPlace(placeId);
        }

        return weather;
    }
}
