namespace LeafScan.Records.Tests;

/// <summary>Care entries and taps that are put right afterwards: the old value stays on record and comes back with undo.</summary>
public sealed class EditedEntriesTests : IDisposable
{
    private readonly ScratchFolder _folder = new();
    private readonly RecordStore _store;

    public EditedEntriesTests()
    {
        _store = _folder.Open();
        Place place = _store.FindOrAddPlace("Nursery");
        Walk walk = _store.FindOrAddWalk(place.Id, Some.Day);
        _store.RecordPhoto(Some.Photo(walk.Id, 1, "B12"));
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public void A_care_entry_is_put_right_and_undo_brings_every_old_value_back()
    {
        CareEntry old = _store.AddCare(1, Some.Day, CareKind.Soap, "front", new CareDetails { At = new TimeOnly(7, 5), Active = "salts of fatty acids", Target = "mites" });

        CareEntry now = _store.EditCare(
            old.Id, entry => entry with { DoneOn = Some.Day.AddDays(-1), What = CareKind.Oil, Note = null, Details = new CareDetails { Active = "mineral oil", ModeGroup = "UNE" } }, "care changed")!;

        Assert.Equal(now, _store.CareOfPlant(1).Single());
        Assert.Equal((Some.Day.AddDays(-1), CareKind.Oil, null), (now.DoneOn, now.What, now.Note));
        Assert.Equal(new CareDetails { Active = "mineral oil", ModeGroup = "UNE" }, now.Details);
        Assert.Contains(_store.EditsOf("care", old.Id), edit => edit is { Field: "active", OldValue: "salts of fatty acids", NewValue: "mineral oil" });

        Assert.Contains(_store.UndoLastEdit()!.Words, word => word.Contains("what was done is “soap” again", StringComparison.Ordinal));
        Assert.Equal(old, _store.CareOfPlant(1).Single());
    }

    [Theory]
    [InlineData(5, null, null, 3)]
    [InlineData(null, 3, 5, null)]
    [InlineData(0, null, 17, null)]
    public void A_tap_is_put_right_and_undone_whichever_way_it_was_counted(int? lens, int? photo, int? lensAfter, int? photoAfter)
    {
        TapOnRecord old = _store.AddTap(new NewTap { PlantId = 1, Day = Some.Day, MitesByLens = lens, MitesByPhoto = photo, Strikes = 5, SheetWidthMm = 215.9, HoursSinceWet = 0.1 });

        TapOnRecord now = _store.EditTap(
            old.Id, tap => tap with { MitesByLens = lensAfter, MitesByPhoto = photoAfter, Strikes = null, SheetWidthMm = 1.0 / 3, Predators = 0, Note = "new glasses" }, "tap changed")!;

        Assert.Equal(now, _store.TapsOfPlant(1).Single());
        Assert.Equal((lensAfter, photoAfter, 1.0 / 3, 0), (now.Tap.MitesByLens, now.Tap.MitesByPhoto, now.Tap.SheetWidthMm, now.Tap.Predators));
        Assert.NotNull(_store.UndoLastEdit());
        Assert.Equal(old, _store.TapsOfPlant(1).Single());
    }

    [Fact]
    public void What_is_not_there_lies_in_the_bin_or_would_make_no_sense_is_not_changed()
    {
        TapOnRecord tap = _store.AddTap(new NewTap { PlantId = 1, Day = Some.Day, MitesByLens = 4 });
        CareEntry care = _store.AddCare(1, Some.Day, CareKind.Rinse);

        Assert.Throws<RecordException>(() => _store.EditTap(tap.Id, old => old with { MitesByLens = null }, "no count"));
        Assert.Throws<RecordException>(() => _store.EditTap(tap.Id, old => old with { Strikes = 0 }, "no strike"));
        Assert.Null(_store.EditTap(99, old => old, "none"));
        _store.PutInBin(BinKind.Care, care.Id, "twice");
        Assert.Null(_store.EditCare(care.Id, old => old with { Note = "x" }, "in the bin"));
        Assert.Null(_store.FindCare(care.Id));
        Assert.Equal(tap, _store.TapsOfPlant(1).Single());
        Assert.Empty(_store.EditsOf("tap", tap.Id));
    }

    [Fact]
    public void An_edit_that_changes_nothing_leaves_no_trace()
    {
        TapOnRecord tap = _store.AddTap(new NewTap { PlantId = 1, Day = Some.Day, MitesByLens = 4, HoursSinceWet = 0.3 });

        Assert.Equal(tap, _store.EditTap(tap.Id, old => old, "nothing"));

        Assert.Empty(_store.EditsOf("tap", tap.Id));
    }
}
