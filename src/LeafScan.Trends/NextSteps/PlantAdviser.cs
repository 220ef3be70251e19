using LeafScan.Records;
using LeafScan.Trends.Sampling;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Trends.NextSteps;

/// <summary>A plant, what is known of it and what to do next.</summary>
/// <param name="Plant">The plant.</param>
/// <param name="Client">Client of its place; null for none.</param>
/// <param name="Situation">What is known.</param>
/// <param name="Advice">What to do.</param>
public sealed record PlantAdvice(Plant Plant, string? Client, PlantSituation Situation, NextAdvice Advice);

/// <summary>Advises on plants by all that is on record; each kind of entry is read once for all of them.</summary>
/// <param name="store">The record.</param>
/// <param name="thresholds">Thresholds in force.</param>
/// <param name="kept">What leaves said before, of the same record, for a program that runs on; null to read them anew. The answers are the same.</param>
/// <param name="entries">Care and taps that were read before, likewise.</param>
public sealed class PlantAdviser(RecordStore store, ThresholdTable thresholds, KeptLeafStates? kept = null, KeptEntries? entries = null)
{
    private readonly KeptLeafStates _leaves = kept ?? new KeptLeafStates(store);
    private readonly KeptEntries _entries = entries ?? new KeptEntries(store);

    /// <summary>Advises on plants: first those with something to do, by the day to look again, then those at rest.</summary>
    /// <param name="plants">The plants.</param>
    /// <param name="today">Day for which advice is wanted.</param>
    /// <param name="kind">By readings of this kind only: leaf, twig or plant; null for leaves where a plant has any, else twigs, else whole plants.</param>
    public IReadOnlyList<PlantAdvice> Advise(IReadOnlyList<Plant> plants, DateOnly today, string? kind = null)
    {
        long[] ids = [.. plants.Select(plant => plant.Id)];
        Dictionary<long, string?> clients = store.Places().ToDictionary(place => place.Id, place => place.ClientName);
        IReadOnlyDictionary<long, LeafState> leaves = kind is null ? _leaves.Of(plants, today) : StatesOf(plants, ids, today, kind);
        IReadOnlyDictionary<long, PlantEntries> done = _entries.Of(ids);
        Dictionary<long, IReadOnlyList<WeatherDay>> weather = plants.Select(plant => plant.PlaceId).Distinct()
            .ToDictionary(place => place, place => store.WeatherOfPlace(place, today.AddDays(-30), today));
        return
        [
            .. plants.Select(plant =>
            {
                PlantSituation situation = RecordSituation.Of(plant, leaves[plant.Id], done[plant.Id].Care, done[plant.Id].Taps, weather[plant.PlaceId], today, thresholds, clients[plant.PlaceId]);
                return new PlantAdvice(plant, clients[plant.PlaceId], situation, NextAdvice.For(situation));
            }).OrderBy(advice => advice.Advice.IsRest).ThenBy(advice => advice.Advice.RecheckOn),
        ];
    }

    private Dictionary<long, LeafState> StatesOf(IReadOnlyList<Plant> plants, long[] ids, DateOnly today, string kind)
    {
        ILookup<long, LeafOnRecord> leaves = store.LeavesOfPlants(ids, null, today, kind).ToLookup(leaf => leaf.PlantId);
        return plants.DistinctBy(plant => plant.Id).ToDictionary(plant => plant.Id, plant => LeafState.Of(plant, leaves[plant.Id], today) with { Kind = kind });
    }

    /// <summary>
    /// How clumped mites are on the taps of a place: days on which one plant was tapped at least twice, branch by branch (several over one
    /// sheet hide how they differ). Null for too few of them.
    /// </summary>
    /// <param name="placeId">Place.</param>
    public TaylorLaw? SpreadAt(long placeId)
    {
        long[] ids = [.. store.Plants().Where(plant => plant.PlaceId == placeId).Select(plant => plant.Id)];
        return TaylorLaw.Fit(
            _entries.Of(ids).Values.SelectMany(plant => plant.Taps.Where(tap => tap.BranchCount == 1).GroupBy(tap => tap.Tap.Day)).Select(day => day.Select(tap => (double)tap.LiveMites).ToArray()).Where(counts => counts.Length >= 2)
                .Select(counts => (counts.Average(), counts.Sum(count => (count - counts.Average()) * (count - counts.Average())) / (counts.Length - 1))),
            "mites a tap");
    }
}
