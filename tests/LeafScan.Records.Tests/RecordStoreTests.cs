using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Tests;

public sealed class RecordStoreTests : IDisposable
{
    private readonly ScratchFolder _folder = new();
    private readonly RecordStore _store;
    private readonly Walk _walk;

    public RecordStoreTests()
    {
        _store = _folder.Open();
        _walk = _store.FindOrAddWalk(_store.FindOrAddPlace("Miller's garden").Id, Some.Day);
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public void A_photo_comes_back_with_every_number_and_shape_it_went_in_with()
    {
        LeafReading leaf = Some.Leaf(0.2, [Flag.Glare.Name]) with { AreaMm2 = 512.5, SpeckDensityPerCm2 = 3.25 };
        _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12", leaf));

        LeafOnRecord kept = Assert.Single(_store.LeavesOfPlant(Assert.Single(_store.FindPlants("B12")).Id));
        LeafShape shape = _store.ShapeOfLeaf(kept.LeafId)!;

        Assert.Equal(leaf.Shares, kept.Shares);
        Assert.Equal((leaf.AreaPx, leaf.AreaMm2, leaf.Damage, leaf.DamageLow, leaf.DamageHigh), (kept.AreaPx, kept.AreaMm2, kept.Damage, kept.DamageLow, kept.DamageHigh));
        Assert.Equal((2, 3.25, 7.1), (kept.SpeckCount, kept.SpeckDensityPerCm2, kept.SpeckDiameterMedianPx));
        Assert.Equal(["noScale", "glare"], kept.Flags);
        Assert.Equal(Some.Day, kept.WalkedOn);
        Assert.Equal(leaf.Outline, shape.Outline);
        Assert.Equal([new SpeckMark(10.2, 11.5, 7), new SpeckMark(20, 12, 7.2)], shape.SpeckCentres);
        Assert.Equal(leaf.Causes[0].Because, shape.Causes[0].Because);
    }

    [Fact]
    public void What_was_written_is_there_after_closing_and_opening()
    {
        using var folder = new ScratchFolder();
        using (RecordStore first = folder.Open())
        {
            Walk walk = first.FindOrAddWalk(first.FindOrAddPlace("Nursery").Id, Some.Day);
            first.RecordPhoto(Some.Photo(walk.Id, 7));
        }

        using RecordStore again = folder.Open(new RecordOptions { CreateIfMissing = false });

        Assert.Equal("IMG_7.jpg", again.FindPhoto(Some.Sha(7))!.FileName);
        Assert.Equal(new DateTimeOffset(2026, 6, 3, 13, 14, 0, TimeSpan.Zero), Assert.Single(again.Walks()).RecordedAt);
    }

    [Fact]
    public void The_same_bytes_twice_are_one_photo_and_the_answer_tells_where_it_is()
    {
        Walk later = _store.FindOrAddWalk(_walk.PlaceId, Some.Day.AddMonths(1));
        PhotoRecorded first = _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12"));

        PhotoRecorded second = _store.RecordPhoto(Some.Photo(later.Id, 1, "B13") with { Origin = new ReadingOrigin("9", "f") });

        Assert.True(first.Added);
        Assert.False(second.Added);
        Assert.Equal(("B12", Some.Day, "Miller's garden", "0.1.0"), (second.Photo.PlantCode, second.Photo.WalkedOn, second.Photo.PlaceName, second.Photo.Origin.ToolVersion));
        Assert.Equal(1, _store.Describe().Leaves);
        Assert.Empty(_store.FindPlants("B13"));
    }

    [Fact]
    public void Measuring_again_makes_a_new_current_reading_and_keeps_the_old_one()
    {
        long photo = _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12", Some.Leaf(0.1), Some.Leaf(0.2))).Photo.Id;

        _store.RecordReading(photo, Some.Reading(1, Some.Leaf(0.5)), new ReadingOrigin("0.2.0", "beef", "specks-3"));

        IReadOnlyList<ReadingOnRecord> readings = _store.ReadingsOfPhoto(photo);
        Assert.Equal([true, false], readings.Select(reading => reading.IsCurrent));
        Assert.Equal([1, 2], readings.Select(reading => reading.LeafCount));
        Assert.Equal(new ReadingOrigin("0.2.0", "beef", "specks-3"), readings[0].Origin);
        Assert.Equal(0.5, Assert.Single(_store.LeavesOfPlant(_store.FindPlants("B12")[0].Id)).Shares.Stippled);
    }

    [Fact]
    public void A_photo_whose_second_leaf_is_impossible_leaves_nothing_behind()
    {
        LeafReading impossible = Some.Leaf() with { Shares = new LeafShares(0.9, 0.9, 0, 0, 0, 0) };

        Assert.Throws<SqliteException>(() => _store.RecordPhoto(Some.Photo(_walk.Id, 1, "NEW", Some.Leaf(), impossible)));

        StoreFacts facts = _store.Describe();
        Assert.Equal((0, 0, 0, 0), (facts.Photos, facts.Readings, facts.Leaves, facts.Plants));
        Assert.Empty(_store.CheckIntegrity());
    }

    [Fact]
    public void Shares_that_miss_nought_by_a_rounding_error_are_kept()
    {
        LeafReading leaf = Some.Leaf() with { Shares = new LeafShares(1 + 1e-12, 0, 0, -1e-17, 0, 0) };

        _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12", leaf));

        Assert.Equal(1, _store.Describe().Leaves);
    }

    [Theory]
    [InlineData("miller's GARDEN")]
    [InlineData("  Miller's   garden ")]
    public void A_place_is_found_by_its_name_however_it_is_spaced_or_cased(string spelling)
        => Assert.Equal(_walk.PlaceId, _store.FindOrAddPlace(spelling).Id);

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("two\nlines")]
    public void A_name_that_cannot_be_kept_is_refused_in_a_sentence(string name)
        => Assert.Equal(RecordTrouble.WrongValue, Assert.Throws<RecordException>(() => _store.FindOrAddPlace(name)).Trouble);

    [Fact]
    public void Two_places_may_both_have_a_plant_of_one_code()
    {
        Place other = _store.FindOrAddPlace("Öztürk & Søn");
        _store.FindOrAddPlant(_walk.PlaceId, "B12");
        _store.FindOrAddPlant(other.Id, "b12");

        Assert.Equal(["Miller's garden", "Öztürk & Søn"], _store.FindPlants("B12").Select(plant => plant.PlaceName));
        Assert.Equal("b12", Assert.Single(_store.FindPlants("B12", "öztürk & søn")).Code);
    }

    [Fact]
    public void Adding_the_same_walk_again_is_the_same_walk()
        => Assert.Equal(_walk.Id, _store.FindOrAddWalk(_walk.PlaceId, Some.Day).Id);

    [Fact]
    public void A_photo_of_no_known_plant_is_kept_and_is_in_no_plants_series()
    {
        _store.RecordPhoto(Some.Photo(_walk.Id, 1, plant: null));

        Assert.Null(_store.FindPhoto(Some.Sha(1))!.PlantId);
        Assert.Empty(_store.PlantOverviews());
        Assert.Empty(_store.LeavesBetween(Some.Day, Some.Day));
    }

    [Fact]
    public void Moving_a_photo_moves_its_leaves_and_keeps_the_old_plant_with_the_reason()
    {
        long photo = _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12")).Photo.Id;

        _store.MovePhoto(photo, "B13", "wrong folder");

        Assert.Equal("B13", _store.FindPhoto(Some.Sha(1))!.PlantCode);
        Assert.Equal([("B12", 0), ("B13", 1)], _store.PlantOverviews().Select(plant => (plant.Plant.Code, plant.PhotoCount)));
        Assert.Equal(
            [("plant", "B12", "B13", "wrong folder"), ("plant_by", "byFolder", "byHand", "wrong folder")],
            _store.EditsOf("photo", photo).Select(edit => (edit.Field, edit.OldValue, edit.NewValue, edit.Reason)));
    }

    [Fact]
    public void A_refused_file_is_listed_until_a_good_copy_of_it_is_recorded()
    {
        var refusal = new PhotoRefusal("IMG_1.jpg", "The file ends too early.", "Copy it again.");
        _store.RecordRefusal(new NewRefusal { WalkId = _walk.Id, PathSeen = "/photos/IMG_1.jpg", Refusal = refusal });
        _store.RecordRefusal(new NewRefusal { WalkId = _walk.Id, PathSeen = "/photos/IMG_1.jpg", Refusal = refusal with { Reason = "Still too short." } });

        Assert.Equal("Still too short.", Assert.Single(_store.RefusedFiles()).Reason);
        _store.RecordPhoto(Some.Photo(_walk.Id, 1));
        Assert.Empty(_store.RefusedFiles(_walk.Id));
    }

    [Fact]
    public void The_list_of_plants_shows_the_last_walk_only()
    {
        Walk later = _store.FindOrAddWalk(_walk.PlaceId, Some.Day.AddMonths(1));
        _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12", Some.Leaf(0.5)));
        _store.RecordPhoto(Some.Photo(later.Id, 2, "B12", Some.Leaf(0.1), Some.Leaf(0.3)));
        _store.FindOrAddPlant(_walk.PlaceId, "A1");

        IReadOnlyList<PlantOverview> plants = _store.PlantOverviews("Miller's garden");

        Assert.Equal(["A1", "B12"], plants.Select(plant => plant.Plant.Code));
        Assert.Equal((null, null), (plants[0].LastWalkedOn, plants[0].LastDamage));
        Assert.Equal((2, 2, later.WalkedOn, 2), (plants[1].WalkCount, plants[1].PhotoCount, plants[1].LastWalkedOn!.Value, plants[1].LastLeafCount));
        Assert.Equal((0.2 + 0.04) / 0.99, plants[1].LastDamage!.Value, 1e-6);
        Assert.Empty(_store.PlantOverviews("elsewhere"));
    }

    [Fact]
    public void Months_are_plain_means_over_the_leaves_of_all_walks_in_them()
    {
        Walk sameMonth = _store.FindOrAddWalk(_walk.PlaceId, Some.Day.AddDays(20));
        Walk nextMonth = _store.FindOrAddWalk(_walk.PlaceId, Some.Day.AddMonths(1));
        _store.RecordPhoto(Some.Photo(_walk.Id, 1, "B12", Some.Leaf(0.1)));
        _store.RecordPhoto(Some.Photo(sameMonth.Id, 2, "B12", Some.Leaf(0.2), Some.Leaf(0.3)));
        _store.RecordPhoto(Some.Photo(nextMonth.Id, 3, "B12", Some.Leaf(0.4)));

        IReadOnlyList<MonthFigures> months = _store.MonthFigures();

        Assert.Equal([("2026-06", 2, 3), ("2026-07", 1, 1)], months.Select(month => (month.Month, month.WalkCount, month.LeafCount)));
        Assert.Equal(0.2, months[0].Shares.Stippled, 1e-12);
        Assert.Equal([0.1, 0.2, 0.3], _store.LeavesBetween(new DateOnly(2026, 6, 1), new DateOnly(2026, 6, 30)).Select(leaf => leaf.Shares.Stippled));
    }

    [Fact]
    public void A_run_keeps_its_counts_and_a_cut_off_run_has_no_end()
    {
        long cut = _store.StartRun("walk add", "0.1.0");
        long whole = _store.StartRun("walk add", "0.1.0");
        _folder.Clock.Now = _folder.Clock.Now.AddMinutes(2);
        _store.EndRun(whole, RunEnding.Finished, new RunCounts(5, 2, 1));

        IReadOnlyList<Run> runs = _store.Runs();

        Assert.Equal([whole, cut], runs.Select(run => run.Id));
        Assert.Equal((RunEnding.Finished, new RunCounts(5, 2, 1), _folder.Clock.Now), (runs[0].Ending, runs[0].Counts, runs[0].EndedAt));
        Assert.Equal((null, null), (runs[1].Ending, runs[1].EndedAt));
    }

    [Fact]
    public void Care_entries_come_back_by_day()
    {
        long plant = _store.FindOrAddPlant(_walk.PlaceId, "B12").Id;
        _store.AddCare(plant, Some.Day.AddDays(3), CareKind.Nothing);
        _store.AddCare(plant, Some.Day, CareKind.Rinse, "hose, undersides");

        Assert.Equal([(CareKind.Rinse, "hose, undersides"), (CareKind.Nothing, null)], _store.CareOfPlant(plant).Select(care => (care.What, care.Note)));
    }

    [Fact]
    public void Describing_a_plant_keeps_what_was_there_before()
    {
        long plant = _store.FindOrAddPlant(_walk.PlaceId, "B12").Id;
        _store.DescribePlant(plant, "south hedge", "Euonymus alatus", "first look");
        _store.DescribePlant(plant, "south hedge", "Buxus sempervirens", "was mistaken");

        Assert.Equal("Buxus sempervirens", _store.FindPlants("B12")[0].Species);
        Assert.Equal([null, null, "Euonymus alatus"], _store.EditsOf("plant", plant).Select(edit => edit.OldValue));
    }
}
