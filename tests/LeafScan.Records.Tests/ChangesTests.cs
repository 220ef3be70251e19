using LeafScan.Records.Upkeep;

namespace LeafScan.Records.Tests;

/// <summary>Whatever a verdict hangs on moves the number of its plant, and nothing else does.</summary>
public sealed class ChangesTests
{
    [Fact]
    public void Every_way_of_writing_moves_the_number_of_the_plants_it_touches()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();
        Place place = store.FindOrAddPlace("Nursery");
        Walk walk = store.FindOrAddWalk(place.Id, Some.Day);
        long a = store.FindOrAddPlant(place.Id, "A").Id, b = store.FindOrAddPlant(place.Id, "B").Id;
        long photo = 0, tap = 0, care = 0;

        Moves([a], () => photo = store.RecordPhoto(Some.Photo(walk.Id, 1, "A", Some.Leaf(), Some.Leaf(0.2))).Photo.Id);
        Moves([], () => store.RecordPhoto(Some.Photo(walk.Id, 2, plant: null)));
        Moves([a], () => store.RecordReading(photo, Some.Reading(1, Some.Leaf(), Some.Leaf(0.3)), Some.Origin));
        Moves([a], () => store.NotePhotoLeaf(photo, LeafGrowth.New, null, "looked"));
        Moves([a], () => store.NoteLeaf(photo, 1, LeafGrowth.Old, "7", "looked"));
        Moves([a], () => store.UndoLastEdit());
        Moves([a, b], () => store.MovePhoto(photo, "B", "wrong plant"));
        Moves([b], () => store.PutInBin(BinKind.Photo, photo, "a thumb"));
        Moves([b], () => tap = store.AddTap(new NewTap { PlantId = b, Day = Some.Day, MitesByLens = 3 }).Id);
        Moves([b], () => store.PutInBin(BinKind.Tap, tap, "other plant"));
        Moves([a], () => care = store.AddCare(a, Some.Day, CareKind.Rinse).Id);
        Moves([a], () => store.PutInBin(BinKind.Care, care, "not done"));
        Moves([b], () => store.EditPlant(b, plant => plant with { Species = "Buxus sempervirens", Facts = plant.Facts with { IsCheck = true } }, "looked"));
        Moves([], () => store.SetClient(place.Id, "Miller", "told"));

        RecordChanges before = store.Changes();
        store.AddWeather(place.Id, [new WeatherDay(Some.Day, 10, 20, "a.csv")]);
        RecordChanges after = store.Changes();
        Assert.Equal(before.OfPlants, after.OfPlants);
        Assert.True(after.OfWeather[place.Id] > before.Last);
        Assert.Equal([new UntreatedPlant(b, place.Id, "Buxus sempervirens")], after.Untreated);

        void Moves(long[] plants, Action write)
        {
            RecordChanges old = store.Changes();
            write();
            RecordChanges now = store.Changes();
            Assert.Equal(plants.Order(), now.OfPlants.Where(plant => plant.Value != old.OfPlants.GetValueOrDefault(plant.Key)).Select(plant => plant.Key).Order());
            Assert.All(plants, plant => Assert.True(now.OfPlants[plant] > old.Last));
        }
    }

    [Fact]
    public void Going_back_to_a_backup_gives_every_plant_a_number_it_never_had()
    {
        using var folder = new ScratchFolder();
        string backup = Path.Combine(folder.FolderPath, "saved.db");
        RecordChanges before;
        using (RecordStore store = folder.Open())
        {
            store.RecordPhoto(Some.Photo(store.FindOrAddWalk(store.FindOrAddPlace("Nursery").Id, Some.Day).Id, 1));
            store.BackUp(backup);
            store.AddCare(1, Some.Day, CareKind.Rinse);
            before = store.Changes();
        }

        RecordStore.Restore(folder.FolderPath, backup, folder.Clock);

        using RecordStore now = folder.Open();
        Assert.True(now.Changes().OfPlants[1] > before.Last);
        Assert.True(now.Changes().OfWeather[1] > before.Last);
    }

    [Fact]
    public void A_record_of_the_layout_before_keeps_its_rows_and_counts_changes_from_now_on()
    {
        using var folder = new ScratchFolder();
        folder.OpenWith(Migration.All[0]).Dispose();
        LayoutTwoTests.Run(folder, LayoutTwoTests.FirstRecord);
        folder.OpenWith([.. Migration.All.TakeWhile(step => step.Number < 6)]).Dispose();

        using RecordStore store = folder.Open();
        Assert.Empty(store.CheckIntegrity());
        Assert.Equal(2, store.LeavesOfPlant(1).Count);
        Assert.Empty(store.Changes().OfPlants);
        store.AddCare(1, Some.Day, CareKind.Rinse);
        Assert.Equal(1, store.Changes().OfPlants[1]);
        Assert.Contains(store.Backups(), backup => Path.GetFileName(backup).StartsWith("before-layout-6-", StringComparison.Ordinal));
    }
}
