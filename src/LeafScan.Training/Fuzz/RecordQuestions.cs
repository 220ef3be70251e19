using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends.Thresholds;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Training.Fuzz;

/// <summary>What commands and page ask of a record: each must be answered, or refused in words.</summary>
internal static class RecordQuestions
{
    private static readonly Action<RecordStore>[] All =
    [
        store => store.PlantOverviews(),
        store => store.LeavesOfPlants(store.Plants().Select(plant => plant.Id)),
        store => store.LeavesOfPlants(store.Plants().Select(plant => plant.Id), kind: "plant"),
        store => store.Photos().Where(photo => photo.Kind is "twig" or "plant").ToList().ForEach(photo => store.ReadingOf(photo.Id)),
        store => store.DamageOfLastWalks(),
        store => store.MonthFigures(),
        store => store.Clients(),
        store => store.Runs(),
        store => store.Walks(),
        store => store.RefusedFiles(),
        store => store.Changes(),
        store => RecordThresholds.Load(store),
        store => store.Photos().Take(3).ToList().ForEach(photo =>
        {
            store.ReadingsOfPhoto(photo.Id);
            store.ReadingOf(photo.Id);
            store.CorrectionsOf(photo.Id);
            store.EditsOf("photo", photo.Id);
        }),
        store => store.LeavesBetween(new DateOnly(2026, 1, 1), new DateOnly(2026, 12, 31)).Take(3).ToList().ForEach(leaf => store.ShapeOfLeaf(leaf.LeafId)),
        store => store.Places().ToList().ForEach(place =>
        {
            store.WeatherOfPlace(place.Id);
            store.NoteTextsOfPlace(place.Id);
        }),
        store => store.Plants().Take(4).ToList().ForEach(plant =>
        {
            store.TapsOfPlant(plant.Id);
            store.CareOfPlant(plant.Id);
            store.NoteTextsOfPlant(plant.Id);
            new PlantJudge(store).Judge(plant);
        }),
        store => store.CheckIntegrity(),
        store =>
        {
            string file = Path.Combine(store.Folder, "out.zip");
            store.ExportTo(file, ToolVersion.Current);
            File.Delete(file);
        },
    ];

    /// <summary>Opens a record and asks all.</summary>
    /// <returns>Number of questions that were refused in words; an exception of another kind gets out.</returns>
    public static int Ask(string folder)
    {
        using RecordStore store = RecordStore.Open(folder, TimeProvider.System);
        int refused = 0;
        foreach (Action<RecordStore> question in All)
        {
            try
            {
                question(store);
            }
            catch (RecordException)
            {
                refused++;
            }
        }

        return refused;
    }
}
