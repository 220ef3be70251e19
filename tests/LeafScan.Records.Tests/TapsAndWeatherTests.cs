namespace LeafScan.Records.Tests;

public sealed class TapsAndWeatherTests : IDisposable
{
    private readonly ScratchFolder _folder = new();
    private readonly RecordStore _store;
    private readonly Plant _plant;

    public TapsAndWeatherTests()
    {
        _store = _folder.Open();
        _plant = _store.FindOrAddPlant(_store.FindOrAddPlace("Nursery").Id, "B12");
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public void A_tap_comes_back_with_all_that_was_noted_and_zero_is_a_count()
    {
        var full = new NewTap
        {
            PlantId = _plant.Id,
            Day = Some.Day.AddDays(1),
            Strikes = 5,
            SheetWidthMm = 210,
            SheetHeightMm = 297,
            Branches = 2,
            HoursSinceWet = 30.5,
            MitesByLens = 12,
            MitesByPhoto = 9,
            Predators = 1,
            Note = "south side",
        };
        _store.AddTap(full);
        _store.AddTap(new NewTap { PlantId = _plant.Id, Day = Some.Day, MitesByPhoto = 0 });

        IReadOnlyList<TapOnRecord> taps = _store.TapsOfPlant(_plant.Id);

        Assert.Equal([0, 12], taps.Select(tap => tap.LiveMites));
        Assert.Equal(full, taps[1].Tap);
    }

    [Fact]
    public void A_word_on_a_speck_counts_for_every_reading_of_the_photos_and_undo_takes_it_back_with_the_count()
    {
        TapSheetOnRecord first = _store.AddTapSheet(Some.Sha(1), Some.Sha(2), "0.1.0", """{"specks":[]}""");
        Assert.Equal(first, _store.AddTapSheet(Some.Sha(1), Some.Sha(2), "0.1.0", """{"specks":[]}"""));
        TapSheetOnRecord again = _store.AddTapSheet(Some.Sha(1), Some.Sha(2), "0.2.0", """{"specks":[]}""");
        TapSheetOnRecord turned = _store.AddTapSheet(Some.Sha(2), Some.Sha(1), "0.2.0", """{"specks":[]}""");
        _store.AddTap(new NewTap { PlantId = _plant.Id, Day = Some.Day, MitesByPhoto = 0, SheetId = first.Id });
        _store.AddTapCorrection(first.Id, 3.5, 4, TapWord.Mite, null, "said", said => said.Count);
        _store.AddTapCorrection(first.Id, 9, 9, TapWord.NotMite, "Ann", "said", said => said.Count);

        Assert.Equal([TapWord.Mite, TapWord.NotMite], _store.TapCorrections(again.Id).Select(said => said.Word));
        Assert.Empty(_store.TapCorrections(turned.Id));
        Assert.Equal(2, _store.TapsOfPlant(_plant.Id)[0].Tap.MitesByPhoto);
        Assert.Equal([$"tap sheet of {_plant.Code} on 2026-06-03: what was said of a speck is empty again, not “notMite”", $"tap of {_plant.Code} on 2026-06-03: mites on the photos is “1” again, not “2”"], _store.UndoLastEdit()!.Words);
        Assert.Equal(1, _store.TapsOfPlant(_plant.Id)[0].Tap.MitesByPhoto);
        Assert.NotNull(_store.TapCorrections(first.Id)[1].TakenBackAt);
        Assert.Equal((1, _plant.Id), _store.TapOfSheet(first.Id));
    }

    [Theory]
    [InlineData(null, 5)]
    [InlineData(-1, 5)]
    [InlineData(3, 0)]
    public void A_tap_that_makes_no_sense_is_refused(int? mites, int strikes)
    {
        Assert.Equal(
            RecordTrouble.WrongValue,
            Assert.Throws<RecordException>(() => _store.AddTap(new NewTap { PlantId = _plant.Id, Day = Some.Day, MitesByLens = mites, Strikes = strikes })).Trouble);
        Assert.Empty(_store.TapsOfPlant(_plant.Id));
    }

    [Fact]
    public void Weather_added_again_doubles_nothing_and_names_what_differs()
    {
        WeatherDay first = new(Some.Day, 12.5, 28, "a.csv"), second = new(Some.Day.AddDays(1), 13, 30, "a.csv");
        Assert.Equal(2, _store.AddWeather(_plant.PlaceId, [second, first]).Added);

        WeatherAdded again = _store.AddWeather(_plant.PlaceId, [first with { Source = "b.csv" }, second with { HighC = 31 }, new(Some.Day.AddDays(2), 9, 9, "b.csv")]);

        Assert.Equal((1, 1), (again.Added, again.Same));
        Assert.Equal(second with { HighC = 31 }, Assert.Single(again.Different));
        Assert.Equal([first, second], _store.WeatherOfPlace(_plant.PlaceId, last: Some.Day.AddDays(1)));
    }

    [Fact]
    public void Care_comes_back_with_its_details()
    {
        var details = new CareDetails
        {
            At = new TimeOnly(19, 5),
            Active = "hexythiazox",
            ModeGroup = "10A",
            LabelNumber = "as on the bottle",
            Target = "eggs",
            Conditions = "18 °C, no wind",
        };
        _store.AddCare(_plant.Id, Some.Day, CareKind.Miticide, "undersides", details);

        Assert.Equal(details, Assert.Single(_store.CareOfPlant(_plant.Id)).Details);
    }

    [Fact]
    public void Plants_left_untreated_are_found_by_mark_or_care_entry_within_place_and_species()
    {
        Plant Add(string code, string place, string species, bool isCheck)
        {
            Plant plant = _store.FindOrAddPlant(_store.FindOrAddPlace(place).Id, code);
            return _store.EditPlant(plant.Id, old => old with { Species = species, Facts = new PlantFacts { IsCheck = isCheck } }, "test");
        }

        Plant judged = Add("B12", "Nursery", "Buxus", true);
        Add("C1", "Nursery", "buxus", true);
        Add("C2", "Nursery", "Buxus", false);
        Add("C3", "Nursery", "Ilex", true);
        Add("C4", "Park", "Buxus", true);
        Assert.Equal(["C1"], _store.UntreatedBeside(judged).Select(plant => plant.Code));

        CareEntry left = _store.AddCare(_store.FindPlants("C2")[0].Id, Some.Day, CareKind.Nothing);
        Assert.Equal(["C1", "C2"], _store.UntreatedBeside(judged).Select(plant => plant.Code));
        _store.PutInBin(BinKind.Care, left.Id, "not so");
        Assert.Equal(["C1"], _store.UntreatedBeside(judged).Select(plant => plant.Code));
    }
}
