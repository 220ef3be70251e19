namespace LeafScan.Records.Tests;

/// <summary>Edits, undo and the bin.</summary>
public sealed class ChangesByHandTests : IDisposable
{
    private readonly ScratchFolder _folder = new();
    private readonly RecordStore _store;
    private readonly Walk _walk;
    private readonly long _plant;

    public ChangesByHandTests()
    {
        _store = _folder.Open();
        _walk = _store.FindOrAddWalk(_store.FindOrAddPlace("Nursery").Id, Some.Day);
        _plant = _store.FindOrAddPlant(_walk.PlaceId, "B12").Id;
    }

    public void Dispose()
    {
        // Whatever was done by hand, the sums and references must still fit.
        Assert.Empty(_store.CheckIntegrity());
        _store.Dispose();
        _folder.Dispose();
    }

    private static readonly PlantFacts Full = new()
    {
        Cultivar = "Compactus",
        Block = "South bed",
        Row = "3",
        Position = "7 from the gate",
        Season = MiteSeason.Boxwood,
        Light = "south wall",
        DateIn = new DateOnly(2026, 3, 1),
        DamageAtDelivery = 0.125,
        IsCheck = true,
    };

    [Fact]
    public void Everything_known_of_a_plant_comes_back()
    {
        _store.EditPlant(_plant, plant => plant with { Species = "Buxus sempervirens", Facts = Full }, "first look");

        Plant kept = Assert.Single(_store.FindPlants("b12"));
        Assert.Equal(Full, kept.Facts);
        Assert.Equal("Buxus sempervirens", kept.Species);
        Assert.Equal(kept, Assert.Single(_store.Plants("nursery", "south BED")));
        Assert.Empty(_store.Plants("nursery", "north bed"));
    }

    [Fact]
    public void One_undo_takes_back_all_fields_of_one_change_and_the_next_the_change_before()
    {
        _store.EditPlant(_plant, plant => plant with { Species = "Buxus", Facts = Full }, "first look");
        _store.EditPlant(_plant, plant => plant with { Species = "Ilex", Facts = plant.Facts with { Block = "North bed", IsCheck = false, DamageAtDelivery = null } }, "was mistaken");

        Assert.Equal("was mistaken", _store.UndoLastEdit()!.Reason);
        Assert.Equal(("Buxus", Full), (_store.FindPlants("B12")[0].Species, _store.FindPlants("B12")[0].Facts));
        Assert.Equal("first look", _store.UndoLastEdit()!.Reason);
        Assert.Equal(((string?)null, new PlantFacts()), (_store.FindPlants("B12")[0].Species, _store.FindPlants("B12")[0].Facts));
        Assert.Null(_store.UndoLastEdit());
        Assert.All(_store.EditsOf("plant", _plant), edit => Assert.Equal(_folder.Clock.Now, edit.UndoneAt));
    }

    [Fact]
    public void Moving_a_photo_is_undone_with_how_its_plant_was_found()
    {
        long photo = _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12")).Photo.Id;
        _store.MovePhoto(photo, null, "not a plant");
        _store.MovePhoto(photo, "B13", "after all");

        _store.UndoLastEdit();
        Assert.Equal((null, "unknown"), (_store.FindPhoto(Some.Sha(1))!.PlantCode, _store.FindPhoto(Some.Sha(1))!.PlantBy));
        _store.UndoLastEdit();
        Assert.Equal(("B12", "byFolder"), (_store.FindPhoto(Some.Sha(1))!.PlantCode, _store.FindPhoto(Some.Sha(1))!.PlantBy));
        Assert.Equal([("B12", 1), ("B13", 0)], _store.PlantOverviews().Select(plant => (plant.Plant.Code, plant.PhotoCount)));
    }

    [Fact]
    public void What_a_late_tag_moved_is_taken_back_by_its_number_but_not_over_a_later_hand()
    {
        long one = _store.RecordPhoto(Some.Photo(_walk.Id, 1, null)).Photo.Id;
        long two = _store.RecordPhoto(Some.Photo(_walk.Id, 2, null)).Photo.Id;
        _store.MovePhotosByTag([(one, new PlantGuess("B13", PlantSource.ByTag, "It was taken after the tag.")), (two, new PlantGuess("B13", PlantSource.ByTag, "So was this."))]);
        Assert.Null(_store.UndoLastEdit());
        _store.EditPlant(_plant, plant => plant with { Species = "Ilex" }, "seen");
        Assert.Empty(_store.PhotosDecidedByHand(_walk.Id));
        IReadOnlyList<TagMove> moves = _store.TagMoves(_walk.Id);
        Assert.Equal([("IMG_2.jpg", null, "B13", "So was this."), ("IMG_1.jpg", (string?)null, "B13", "It was taken after the tag.")], moves.Select(move => (move.FileName, move.Before, move.After!, move.Because)));

        _store.MovePhoto(two, "B14", "was another");
        Assert.Contains("changed again", Assert.Throws<RecordException>(() => _store.UndoChange(moves[0].ChangeId)).Message, StringComparison.Ordinal);
        _store.UndoLastEdit();
        Assert.Equal([one, two], _store.UndoChange(moves[0].ChangeId)!.PhotoIds.Order());
        Assert.Equal((null, "unknown"), (_store.FindPhoto(Some.Sha(1))!.PlantCode, _store.FindPhoto(Some.Sha(1))!.PlantBy));
        Assert.Equal("Ilex", _store.FindPlants("B12")[0].Species);
        Assert.Equal([one, two], _store.PhotosDecidedByHand(_walk.Id).Order());
        Assert.Null(_store.UndoChange(moves[0].ChangeId));
    }

    [Fact]
    public void What_lies_in_the_bin_counts_nowhere_and_comes_back_whole()
    {
        long photo = _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12")).Photo.Id;
        long care = _store.AddCare(_plant, Some.Day, CareKind.Rinse).Id;
        long tap = _store.AddTap(new NewTap { PlantId = _plant, Day = Some.Day, MitesByLens = 4 }).Id;

        Assert.True(_store.PutInBin(BinKind.Photo, photo, "a thumb"));
        Assert.True(_store.PutInBin(BinKind.Care, care, "other plant"));
        Assert.True(_store.PutInBin(BinKind.Tap, tap, "miscounted"));
        Assert.False(_store.PutInBin(BinKind.Tap, tap, "again"));

        Assert.Equal(["IMG_1.jpg", "rinse", "tap, 4 mites"], _store.Bin().Select(entry => entry.Words).Order(StringComparer.Ordinal));
        Assert.Equal((0, 0), (_store.PlantOverviews()[0].PhotoCount, _store.PlantOverviews()[0].WalkCount));
        Assert.Empty(_store.LeavesOfPlant(_plant));
        Assert.Empty(_store.CareOfPlant(_plant));
        Assert.Empty(_store.TapsOfPlant(_plant));
        Assert.Empty(_store.Photos());
        Assert.Empty(_store.MonthFigures());
        Assert.True(_store.FindPhoto(Some.Sha(1))!.IsInBin);

        Assert.True(_store.TakeFromBin(BinKind.Photo, photo, "was good"));
        Assert.False(_store.TakeFromBin(BinKind.Photo, photo, "again"));
        Assert.Equal(1, _store.PlantOverviews()[0].WalkCount);
        Assert.Equal(["photo IMG_1.jpg: in the bin is “yes” again, not “no”"], _store.UndoLastEdit()!.Words);
        Assert.True(_store.FindPhoto(Some.Sha(1))!.IsInBin);
        Assert.Equal(3, _store.Bin().Count);
    }

    [Fact]
    public void A_place_gets_its_client_and_undo_takes_it_back()
    {
        _store.SetClient(_walk.PlaceId, "Miller  family", "told on the phone");
        Assert.Equal("Miller family", _store.FindPlace("nursery")!.ClientName);
        Assert.Equal(["Miller family"], _store.Clients().Select(client => client.Name));
        _store.UndoLastEdit();
        Assert.Null(_store.FindPlace("nursery")!.ClientName);
    }

    [Fact]
    public void The_label_of_a_photo_names_its_leaf_and_never_two()
    {
        long one = _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12", Some.Leaf()) with { LeafAge = LeafGrowth.New, LeafTag = "3" }).Photo.Id;
        long two = _store.RecordPhoto(Some.Photo(_walk.Id, 2, "B12", Some.Leaf(), Some.Leaf()) with { LeafAge = LeafGrowth.Old, LeafTag = "4" }).Photo.Id;

        Assert.Equal(
            [(one, LeafGrowth.New, "3"), (two, LeafGrowth.Old, null), (two, LeafGrowth.Old, null)],
            _store.LeavesOfPlant(_plant).Select(leaf => (leaf.PhotoId, leaf.Age!.Value, leaf.Tag)));

        _store.NoteLeaf(two, 1, LeafGrowth.New, "5", "looked again");
        Assert.Equal([LeafGrowth.Old, LeafGrowth.New], _store.LeavesOfPlant(_plant).Skip(1).Select(leaf => leaf.Age!.Value));
        Assert.Equal([null, "5"], _store.LeavesOfPlant(_plant).Skip(1).Select(leaf => leaf.Tag));
        _store.UndoLastEdit();
        Assert.Equal([null, null], _store.LeavesOfPlant(_plant).Skip(1).Select(leaf => leaf.Tag));
        _store.NotePhotoLeaf(one, LeafGrowth.Old, null, "no label on it");
        Assert.Equal((LeafGrowth.Old, null), (_store.LeavesOfPlant(_plant)[0].Age, _store.LeavesOfPlant(_plant)[0].Tag));
        Assert.Equal(RecordTrouble.WrongValue, Assert.Throws<RecordException>(() => _store.NoteLeaf(two, 2, null, "6", "too far")).Trouble);
    }

    [Fact]
    public void Measuring_again_keeps_a_leafs_label_only_while_the_leaves_are_as_many()
    {
        long photo = _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12", Some.Leaf(), Some.Leaf())).Photo.Id;
        _store.NoteLeaf(photo, 1, null, "5", "on the stalk");

        _store.RecordReading(photo, Some.Reading(1, Some.Leaf(0.2), Some.Leaf(0.3)), Some.Origin);
        Assert.Equal([null, "5"], _store.LeavesOfPlant(_plant).Select(leaf => leaf.Tag));
        _store.RecordReading(photo, Some.Reading(1, Some.Leaf(), Some.Leaf(), Some.Leaf()), Some.Origin);
        Assert.All(_store.LeavesOfPlant(_plant), leaf => Assert.Null(leaf.Tag));
        Assert.Contains(_store.EditsOf("photo", photo), edit => (edit.OldValue, edit.NewValue) == ("5", null));
    }

    [Fact]
    public void Damage_at_delivery_outside_its_range_is_refused_and_nothing_changes()
    {
        Assert.Equal(
            RecordTrouble.WrongValue,
            Assert.Throws<RecordException>(() => _store.EditPlant(_plant, plant => plant with { Name = "x", Facts = new PlantFacts { DamageAtDelivery = 12 } }, "percent")).Trouble);
        Assert.Null(_store.FindPlants("B12")[0].Name);
    }
}
