using LeafScan.Records;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Cli.Verdicts;

/// <summary>Judges plants by all that is on record; what several of them need is read once.</summary>
internal sealed class PlantJudge(RecordStore store)
{
    private readonly Dictionary<string, IReadOnlyList<Plant>> _plantsOfPlace = [];
    private readonly Dictionary<long, IReadOnlyList<CareEntry>> _care = [];
    private readonly Dictionary<long, PlantHistory> _checks = [];

    /// <summary>Judges one plant.</summary>
    public Verdict Judge(Plant plant)
        => CareVerdict.Judge(RecordHistory.Of(plant, store.LeavesOfPlant(plant.Id), CareOf(plant), ChecksOf(plant)));

    private List<PlantHistory> ChecksOf(Plant plant)
    {
        IReadOnlyList<CareEntry> care = CareOf(plant);
        if (plant.Species is null || care.All(entry => entry.What == CareKind.Nothing))
        {
            return [];
        }

        if (!_plantsOfPlace.TryGetValue(plant.PlaceName, out IReadOnlyList<Plant>? others))
        {
            _plantsOfPlace[plant.PlaceName] = others = [.. store.PlantOverviews(plant.PlaceName).Select(overview => overview.Plant)];
        }

        return
        [
            .. others.Where(other => string.Equals(other.Species, plant.Species, StringComparison.OrdinalIgnoreCase) && RecordHistory.IsCheck(plant, care, other, CareOf(other)))
                .Select(HistoryOf),
        ];
    }

    private PlantHistory HistoryOf(Plant check)
    {
        if (!_checks.TryGetValue(check.Id, out PlantHistory? history))
        {
            _checks[check.Id] = history = RecordHistory.Of(check, store.LeavesOfPlant(check.Id), CareOf(check), []);
        }

        return history;
    }

    private IReadOnlyList<CareEntry> CareOf(Plant plant)
    {
        if (!_care.TryGetValue(plant.Id, out IReadOnlyList<CareEntry>? care))
        {
            _care[plant.Id] = care = store.CareOfPlant(plant.Id);
        }

        return care;
    }
}
