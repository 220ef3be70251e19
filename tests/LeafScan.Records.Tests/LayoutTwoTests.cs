using LeafScan.Records.Upkeep;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Tests;

/// <summary>A record of the first layout, written by hand as the first version wrote it, comes whole into the newest.</summary>
public sealed class LayoutTwoTests
{
    internal const string FirstRecord = """
        INSERT INTO place VALUES (1, 'Nursery', 'NURSERY', '2026-06-03T13:14:00.000Z');
        INSERT INTO plant VALUES (1, 1, NULL, 'B12', 'B12', 'hedge', 'Buxus sempervirens', '2026-06-03T13:14:00.000Z');
        INSERT INTO walk VALUES (1, 1, '2026-06-03', '2026-06-03T13:14:00.000Z'), (2, 1, '2026-07-03', '2026-07-03T13:14:00.000Z');
        INSERT INTO photo VALUES
            (1, printf('%064x', 1), 'a.jpg', '/p/a.jpg', 1, 'jpeg', 10, 10, NULL, 'leaf', 1, 1, 'byFolder', NULL, '2026-06-03T13:14:00.000Z'),
            (2, printf('%064x', 2), 'b.jpg', '/p/b.jpg', 1, 'jpeg', 10, 10, NULL, 'leaf', 2, 1, 'byHand', NULL, '2026-07-03T13:14:00.000Z'),
            (3, printf('%064x', 3), 'c.jpg', '/p/c.jpg', 1, 'jpeg', 10, 10, NULL, 'leaf', 2, NULL, 'unknown', NULL, '2026-07-03T13:14:00.000Z');
        INSERT INTO reading SELECT id, id, 1, '0.1.0', 'hash', NULL, '2026-07-03T13:14:00.000Z', 'leaf', NULL, '[]', NULL FROM photo;
        INSERT INTO leaf SELECT id, id, 0, 100, NULL, 0.9, 0.1, 0, 0, 0, 0, 0.1 * id, 0, 1, 1, NULL, 7, '[]' FROM reading;
        INSERT INTO leaf_shape SELECT id, '[]', '[]', '[]' FROM leaf;
        INSERT INTO care VALUES (1, 1, '2026-06-05', 'rinse', 'undersides', '2026-06-05T13:14:00.000Z');
        INSERT INTO edit VALUES (1, 'plant', 1, 'name', NULL, 'hedge', 'first look', '2026-06-03T13:14:00.000Z');
        """;

    [Fact]
    public void Every_row_comes_over_and_the_sums_fit()
    {
        using var folder = new ScratchFolder();
        folder.OpenWith(Migration.All[0]).Dispose();
        Run(folder, FirstRecord);

        using RecordStore store = folder.Open();

        Assert.Empty(store.CheckIntegrity());
        PlantOverview plant = Assert.Single(store.PlantOverviews());
        Assert.Equal(("hedge", 2, 2, new DateOnly(2026, 7, 3), 1), (plant.Plant.Name, plant.WalkCount, plant.PhotoCount, plant.LastWalkedOn, plant.LastLeafCount));
        Assert.Equal(0.2, plant.LastDamage!.Value, 1e-12);
        Assert.Equal([0.1, 0.2], store.LeavesOfPlant(1).Select(leaf => leaf.Damage));
        Assert.Equal(["byFolder", "byHand", "unknown"], store.Photos().Select(photo => photo.PlantBy));
        Assert.Equal((CareKind.Rinse, new CareDetails()), (store.CareOfPlant(1)[0].What, store.CareOfPlant(1)[0].Details));
        Assert.StartsWith("before-layout-2-", Path.GetFileName(Assert.Single(store.Backups())), StringComparison.Ordinal);
    }

    [Fact]
    public void An_edit_of_the_first_layout_can_be_undone()
    {
        using var folder = new ScratchFolder();
        folder.OpenWith(Migration.All[0]).Dispose();
        Run(folder, FirstRecord);
        using RecordStore store = folder.Open();

        Assert.Equal(["plant B12: name is empty again, not “hedge”"], store.UndoLastEdit()!.Words);
        Assert.Null(store.FindPlants("B12")[0].Name);
    }

    [Fact]
    public void A_record_with_loose_references_is_left_in_its_layout()
    {
        using var folder = new ScratchFolder();
        folder.OpenWith(Migration.All[0]).Dispose();
        Run(folder, FirstRecord + "DELETE FROM walk WHERE id = 2;");

        Assert.Equal(RecordTrouble.Damaged, Assert.Throws<RecordException>(() => folder.Open()).Trouble);

        using RecordStore old = folder.OpenWith(Migration.All[0]);
        Assert.Equal(1, old.Describe().Layout);
    }

    internal static void Run(ScratchFolder folder, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={folder.StoreFile};Pooling=False;Foreign Keys=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
