using LeafScan.Leaves.Reading;

namespace LeafScan.Records.Tests;

/// <summary>Leaves are read column by column: every number, flag and label must come back as it went in.</summary>
public sealed class LeafRowsTests
{
    [Fact]
    public void A_leaf_comes_back_as_it_was_measured()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();
        Walk walk = store.FindOrAddWalk(store.FindOrAddPlace("Nursery “Süd”").Id, Some.Day);
        LeafReading sized = Some.Leaf(0.123456789012, ["leafCutOff", "glare"]) with { AreaMm2 = 1234.5, SpeckDensityPerCm2 = 7.25, SpeckCount = 412, DamageLow = 0.1, DamageHigh = 0.2 };
        NewPhoto photo = Some.Photo(walk.Id, 1, "Übel-1", sized, Some.Leaf(0.3)) with { LeafAge = LeafGrowth.Old, LeafTag = "5" };
        store.RecordPhoto(photo with { Facts = photo.Facts with { FileName = "Blatt größer 叶.jpg" } });
        NewPhoto broken = Some.Photo(walk.Id, 2, "Übel-1");
        store.RecordPhoto(broken with { LeafTag = new string('ä', 80), LeafAge = LeafGrowth.New, Reading = broken.Reading with { Flags = ["damagedFile"] } });

        LeafOnRecord[] leaves = [.. store.LeavesOfPlant(1)];

        Assert.Equal(3, leaves.Length);
        LeafOnRecord first = leaves[0];
        Assert.Equal(
            ("Blatt größer 叶.jpg", 0, 2500.0, 1234.5, sized.Shares, sized.Damage, 0.1, 0.2, 412, 7.25, 7.1),
            (first.FileName, first.Ordinal, first.AreaPx, first.AreaMm2!.Value, first.Shares, first.Damage, first.DamageLow, first.DamageHigh, first.SpeckCount, first.SpeckDensityPerCm2!.Value, first.SpeckDiameterMedianPx));
        Assert.Equal(["noScale", "leafCutOff", "glare"], first.Flags);
        Assert.Equal((Some.Day, walk.Id, 1L, LeafGrowth.Old, "leaf"), (first.WalkedOn, first.WalkId, first.PlantId, first.Age!.Value, first.Kind));
        Assert.Equal((1, (double?)null, (double?)null), (leaves[1].Ordinal, leaves[1].AreaMm2, leaves[1].SpeckDensityPerCm2));
        Assert.Equal(leaves.Select(LeafDamage.Of), store.DamageOfPlants([1]));
        Assert.Equal([false, false, true], store.DamageOfPlants([1]).Select(leaf => leaf.IsFileDamaged));
        Assert.Equal([null, null, new string('ä', 80)], leaves.Select(leaf => leaf.Tag));
        Assert.Equal([LeafGrowth.Old, LeafGrowth.Old, LeafGrowth.New], leaves.Select(leaf => leaf.Age));
    }

    [Fact]
    public void The_same_leaves_come_whichever_way_they_are_asked_for()
    {
        using var folder = new ScratchFolder();
        using RecordStore store = folder.Open();
        int number = 0;
        foreach (string place in (string[])["Hill", "Dale"])
        {
            long id = store.FindOrAddPlace(place).Id;
            foreach (int day in (int[])[7, 0, 14])
            {
                long walk = store.FindOrAddWalk(id, Some.Day.AddDays(day)).Id;
                foreach (string code in day == 14 ? ["A"] : (string[])["B", "A"])
                {
                    store.RecordPhoto(Some.Photo(walk, ++number, code, Some.Leaf(number / 100.0), Some.Leaf(number / 200.0)));
                }
            }
        }

        LeafOnRecord[] one = [.. store.Plants().OrderBy(plant => plant.Id).SelectMany(plant => store.LeavesOfPlant(plant.Id))];

        Assert.Equal(20, one.Length);
        Assert.Equal(Keys(one), Keys(store.LeavesOfPlants([4, 3, 2, 1])));
        Assert.Equal(Keys(one), Keys(store.LeavesBetween(Some.Day, Some.Day.AddDays(14))));
        Assert.Equal(Keys(one.Where(leaf => leaf.WalkedOn == Some.Day.AddDays(7))), Keys(store.LeavesOfPlants([1, 2, 3, 4], Some.Day.AddDays(7), Some.Day.AddDays(7))));
        Assert.Equal(
            Keys(one.GroupBy(leaf => leaf.PlantId).SelectMany(plant => plant.Where(leaf => leaf.WalkedOn == plant.Max(other => other.WalkedOn)))), Keys(store.LeavesOfLastWalks()));
        Assert.Equal(one.Select(LeafDamage.Of), store.DamageOfPlants([4, 3, 2, 1]));
        Assert.Equal(store.LeavesOfLastWalks().Select(LeafDamage.Of), store.DamageOfLastWalks());
        Assert.Equal(store.LeavesOfLastWalks("dale").Select(LeafDamage.Of), store.DamageOfLastWalks("dale"));
        Assert.Equal(4, store.LeavesOfLastWalks("dale").Count);
        Assert.Empty(store.LeavesOfLastWalks("Nowhere"));
    }

    private static List<(long Plant, DateOnly Day, long Photo, int Ordinal, double Damage)> Keys(IEnumerable<LeafOnRecord> leaves)
        => [.. leaves.Select(leaf => (leaf.PlantId, leaf.WalkedOn, leaf.PhotoId, leaf.Ordinal, leaf.Damage))];
}
