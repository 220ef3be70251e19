namespace LeafScan.Records.Tests;

/// <summary>A twig's or a whole plant's damage is never put together with a leaf's.</summary>
public sealed class OneKindTests
{
    [Fact]
    public void A_plants_figures_are_of_its_leaves_where_it_has_any()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();
        Walk walk = store.FindOrAddWalk(store.FindOrAddPlace("Nursery").Id, Some.Day);
        Add(store, walk, 1, "B12", "plant", 0.8);
        Add(store, walk, 2, "B12", "leaf", 0.1);
        Add(store, walk, 3, "S1", "plant", 0.7);
        Add(store, walk, 4, "S1", "twig", 0.3);

        PlantOverview[] plants = [.. store.PlantOverviews()];

        Assert.Equal([("B12", "leaf", 1, 2), ("S1", "twig", 1, 2)], plants.Select(p => (p.Plant.Code, p.Kind, p.LastLeafCount, p.PhotoCount)));
        Assert.Equal(["leaf"], store.LeavesOfPlant(plants[0].Plant.Id).Select(leaf => leaf.Kind));
        Assert.Equal(["twig"], store.LeavesOfPlant(plants[1].Plant.Id).Select(leaf => leaf.Kind));
        Assert.Equal(["plant"], store.LeavesOfPlant(plants[1].Plant.Id, "plant").Select(leaf => leaf.Kind));
        Assert.Equal(["leaf", "twig"], store.LeavesBetween(Some.Day, Some.Day).Select(leaf => leaf.Kind));
        Assert.Equal(["leaf", "twig"], store.LeavesOfLastWalks().Select(leaf => leaf.Kind));
        Assert.Equal([1, 1], store.MonthFigures().Select(month => month.LeafCount));
        Assert.Equal(store.LeavesOfPlant(plants[0].Plant.Id)[0].Damage, plants[0].LastDamage!.Value, 1e-12);
        Assert.Empty(store.CheckIntegrity());
    }

    [Fact]
    public void A_last_walk_with_another_kind_does_not_hide_the_leaves_of_the_walk_before()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();
        long place = store.FindOrAddPlace("Nursery").Id;
        Add(store, store.FindOrAddWalk(place, Some.Day), 1, "B12", "leaf", 0.1);
        Add(store, store.FindOrAddWalk(place, Some.Day.AddDays(14)), 2, "B12", "plant", 0.5);

        PlantOverview plant = Assert.Single(store.PlantOverviews());

        Assert.Equal((Some.Day, 1, 1), (plant.LastWalkedOn, plant.WalkCount, plant.LastLeafCount));
        Assert.Equal("leaf", Assert.Single(store.LeavesOfLastWalks()).Kind);
    }

    [Fact]
    public void Measuring_a_photo_again_as_another_kind_moves_it_to_that_series()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();
        Walk walk = store.FindOrAddWalk(store.FindOrAddPlace("Nursery").Id, Some.Day);
        Add(store, walk, 1, "B12", "leaf", 0.1);

        store.RecordReading(store.Photos()[0].Id, Some.Reading(1) with { Kind = "twig" }, Some.Origin);

        Assert.Equal("twig", Assert.Single(store.PlantOverviews()).Kind);
        Assert.Empty(store.CheckIntegrity());
    }

    private static void Add(RecordStore store, Walk walk, int number, string plant, string kind, double stippled)
    {
        NewPhoto photo = Some.Photo(walk.Id, number, plant, Some.Leaf(stippled));
        store.RecordPhoto(photo with { Reading = photo.Reading with { Kind = kind } });
    }
}
