using System.Text.Json;
using LeafScan.Leaves.Reading;
using LeafScan.Records.Upkeep;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Tests;

/// <summary>What only twigs and whole plants have is kept with the reading; leaves and readings from before have nothing of it.</summary>
public sealed class FoliageTests : IDisposable
{
    private const int LayoutBefore = 8;

    private readonly ScratchFolder _folder = new();

    [Theory]
    [InlineData("plant")]
    [InlineData("twig")]
    public void A_reading_comes_back_as_it_was_measured(string kind)
    {
        using RecordStore store = _folder.Open();
        LeafReading measured = kind == "plant" ? Some.WholePlant() : Some.Twig();
        PhotoOnRecord photo = store.RecordPhoto(Some.Foliage(WalkOf(store), 1, "J1", kind, measured)).Photo;

        LeafReading kept = store.ReadingOf(photo.Id)!.Leaves.Single();

        Assert.Equal(JsonSerializer.Serialize(measured), JsonSerializer.Serialize(kept));
        LeafOnRecord row = store.LeavesOfPlant(1).Single();
        Assert.Equal(
            (measured.NeedleLengthMm, measured.SpecksPerCmOfNeedle, measured.Crown?.Thinning, measured.Crown?.ThinningLow, measured.Crown?.ThinningHigh, measured.Crown?.WorstSide, measured.Crown?.WorstHeight, measured.Crown?.FallColour),
            (row.Foliage!.NeedleLengthMm, row.Foliage.SpecksPerCmOfNeedle, row.Foliage.Crown?.Thinning, row.Foliage.Crown?.ThinningLow, row.Foliage.Crown?.ThinningHigh, row.Foliage.Crown?.WorstSide, row.Foliage.Crown?.WorstHeight, row.Foliage.Crown?.FallColour));
        Assert.Empty(store.CheckIntegrity());
    }

    [Fact]
    public void Each_row_gets_its_own_and_a_leaf_none()
    {
        using RecordStore store = _folder.Open();
        long walk = WalkOf(store);
        store.RecordPhoto(Some.Photo(walk, 1, "B12"));
        store.RecordPhoto(Some.Foliage(walk, 2, "S1", "plant", Some.WholePlant(0.3, "right")));
        store.RecordPhoto(Some.Foliage(walk, 3, "S1", "plant", Some.WholePlant(0.1, "none")));
        store.RecordPhoto(Some.Foliage(walk, 4, "J1", "twig", Some.Twig()));

        LeafOnRecord[] all = [.. store.LeavesOfPlants(store.Plants().Select(plant => plant.Id))];

        Assert.Equal([null, 0.3, 0.1, null], all.OrderBy(row => row.PhotoId).Select(row => row.Foliage?.Crown?.Thinning));
        Assert.Equal([null, "right", "none", null], all.OrderBy(row => row.PhotoId).Select(row => row.Foliage?.Crown?.WorstSide));
        Assert.Equal([null, null, null, 5.0], all.OrderBy(row => row.PhotoId).Select(row => row.Foliage?.SpecksPerCmOfNeedle));
        Assert.Equal(3, RowsOfFoliage());
    }

    [Fact]
    public void A_record_of_the_layout_before_goes_on_with_nothing_there_for_its_old_rows()
    {
        using (RecordStore old = _folder.OpenWith([.. Migration.All.Where(step => step.Number <= LayoutBefore)]))
        {
            // As the version before wrote it: the photo is of a whole plant, what is special about it was dropped.
            old.RecordPhoto(Some.Foliage(WalkOf(old), 1, "S1", "plant", Some.WholePlant() with { Greenness = null, NewGrowth = null, HealthyPhoto = null, Crown = null }));
            Assert.Equal(LayoutBefore, old.Describe().Layout);
        }

        using RecordStore store = _folder.Open();
        store.RecordPhoto(Some.Foliage(store.FindOrAddWalk(store.Places()[0].Id, Some.Day.AddDays(20)).Id, 2, "S1", "plant", Some.WholePlant()));

        Assert.Equal([null, 0.12], store.LeavesOfPlant(1).Select(row => row.Foliage?.Crown?.Thinning));
        Assert.Null(store.ReadingOf(1)!.Leaves[0].Crown);
        Assert.Equal(2, store.ReadingOf(2)!.Leaves[0].Crown!.Sectors.Count);
        Assert.StartsWith($"before-layout-{LayoutBefore + 1}-", Path.GetFileName(Assert.Single(store.Backups())), StringComparison.Ordinal);
        Assert.Empty(store.CheckIntegrity());
    }

    [Fact]
    public void It_travels_in_an_export_and_stands_in_a_backup()
    {
        string zip = Path.Combine(_folder.FolderPath, "record.zip"), backup = Path.Combine(_folder.FolderPath, "backup.db");
        using RecordStore store = _folder.Open();
        store.RecordPhoto(Some.Foliage(WalkOf(store), 1, "S1", "plant", Some.WholePlant()));
        store.ExportTo(zip, "0.1.0");
        store.BackUp(backup);
        string before = JsonSerializer.Serialize(store.ReadingOf(1));

        using var other = new ScratchFolder();
        using (RecordStore copy = other.Open())
        {
            copy.ImportFrom(zip);
            Assert.Equal(before, JsonSerializer.Serialize(copy.ReadingOf(1)));
        }

        using var third = new ScratchFolder();
        File.Copy(backup, third.StoreFile);
        using RecordStore restored = third.Open();
        Assert.Equal(before, JsonSerializer.Serialize(restored.ReadingOf(1)));
    }

    public void Dispose() => _folder.Dispose();

    private static long WalkOf(RecordStore store) => store.FindOrAddWalk(store.FindOrAddPlace("Nursery").Id, Some.Day).Id;

    private long RowsOfFoliage()
    {
        using SqliteConnection connection = new($"Data Source={_folder.StoreFile};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM foliage";
        return (long)command.ExecuteScalar()!;
    }
}
