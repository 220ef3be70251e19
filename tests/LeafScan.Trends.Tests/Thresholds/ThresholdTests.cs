using LeafScan.Records;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Trends.Tests.Thresholds;

public sealed class ThresholdTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-thresholds-").FullName;

    // Nebraska Extension 2023: 10 a tap on landscape conifers. None was found for burning bush, boxwood and rose.
    [Theory]
    [InlineData("Picea glauca 'Conica'", 10.0)]
    [InlineData("juniperus chinensis", 10.0)]
    [InlineData("Euonymus alatus", null)]
    [InlineData("Buxus sempervirens", null)]
    [InlineData("Rosa", null)]
    [InlineData(null, null)]
    public void Only_plants_with_a_published_threshold_have_one(string? species, double? expected)
        => Assert.Equal(expected, ThresholdTable.Plain.For(ThresholdMeasure.MitesPerTap, species, null)?.Value);

    [Fact]
    public void The_closest_one_of_the_persons_own_goes_first()
    {
        Threshold all = Own(7, null, null), genus = Own(6, "Picea", null), species = Own(5, "Picea glauca", null), client = Own(4, null, "Miller");
        ThresholdTable table = new([all, genus, species, client]);

        Assert.Equal(7, table.For(ThresholdMeasure.MitesPerTap, "Rosa", null)!.Value);
        Assert.Equal(6, table.For(ThresholdMeasure.MitesPerTap, "Picea abies", null)!.Value);
        Assert.Equal(5, table.For(ThresholdMeasure.MitesPerTap, "picea glauca 'Conica'", null)!.Value);
        Assert.Equal(4, table.For(ThresholdMeasure.MitesPerTap, "Picea glauca", "miller")!.Value);
        Assert.Equal(7, table.For(ThresholdMeasure.MitesPerTap, "Piceaster", null)!.Value);
    }

    [Fact]
    public void What_is_set_stays_until_it_is_dropped_and_can_be_undone()
    {
        using RecordStore store = Store();
        RecordThresholds.Set(store, Own(5, "Rosa", null));
        RecordThresholds.Set(store, Own(6, "rosa", null));
        Assert.Equal(6, Assert.Single(RecordThresholds.Load(store).Own).Value);
        Assert.Null(RecordThresholds.Drop(store, ThresholdMeasure.MitesPerTap, null, null));
        Assert.Equal(6, RecordThresholds.Drop(store, ThresholdMeasure.MitesPerTap, "Rosa", null)!.Value);
        Assert.Empty(RecordThresholds.Load(store).Own);

        Assert.Equal(["threshold mites-per-tap for Rosa: value is “6” again, not empty"], store.UndoLastEdit()!.Words);
        Assert.Equal(6, Assert.Single(RecordThresholds.Load(store).Own).Value);
        store.UndoLastEdit();
        Assert.Equal(5, Assert.Single(RecordThresholds.Load(store).Own).Value);
        store.UndoLastEdit();
        Assert.Empty(RecordThresholds.Load(store).Own);
    }

    [Fact]
    public void Thresholds_go_along_into_an_export_and_a_backup_also_from_the_file_of_an_older_version()
    {
        string other = Path.Combine(_folder, "other"), zip = Path.Combine(_folder, "record.zip"), backup = Path.Combine(_folder, "saved.db");
        using (RecordStore store = Store())
        {
            File.WriteAllText(OldFile, """{"schema":"leafscan.own-thresholds/1","thresholds":[{"measure":"mites-per-tap","value":5,"plants":"Rosa","client":null,"region":"valley","source":"own records"}]}""");
            store.ExportTo(zip, "0.1.0");
            store.BackUp(backup);
            RecordThresholds.Drop(store, ThresholdMeasure.MitesPerTap, "Rosa", null);
        }

        Assert.False(File.Exists(OldFile));
        Threshold[] wanted = [new(ThresholdMeasure.MitesPerTap, 5, "Rosa", null, "valley", "own records", true)];
        using (RecordStore copy = RecordStore.Open(other, TimeProvider.System))
        {
            copy.ImportFrom(zip);
            Assert.Equal(wanted, RecordThresholds.Load(copy).Own);
        }

        RecordStore.Restore(_folder, backup, TimeProvider.System);
        using RecordStore again = Store();
        Assert.Equal(wanted, RecordThresholds.Load(again).Own);
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{\"schema\":\"leafscan.own-thresholds/1\",\"thresholds\":[null]}")]
    [InlineData("{\"schema\":\"leafscan.own-thresholds/9\",\"thresholds\":[]}")]
    public void An_old_file_that_is_none_of_ours_is_refused_in_a_sentence_and_stays(string text)
    {
        using RecordStore store = Store();
        File.WriteAllText(OldFile, text);
        Assert.Contains("thresholds.json", Assert.Throws<RecordException>(() => RecordThresholds.Load(store)).Message, StringComparison.Ordinal);
        Assert.True(File.Exists(OldFile));
    }

    [Fact]
    public void A_number_out_of_range_is_named_and_can_be_set_anew_and_a_measure_of_another_version_is_passed_over()
    {
        using RecordStore store = Store();
        store.SetThreshold(new OwnThreshold("bees", 1, null, null, "", "x"), "test");
        store.SetThreshold(new OwnThreshold("mites-per-tap", -1, null, null, "", "x"), "test");
        Assert.Contains("thresholds set mites-per-tap", Assert.Throws<RecordException>(() => RecordThresholds.Load(store)).Message, StringComparison.Ordinal);
        Assert.Equal(3, Assert.Single(RecordThresholds.Set(store, Own(3, null, null)).Own).Value);
    }

    [Fact]
    public void Every_published_one_names_source_and_region_and_lies_in_range()
        => Assert.All(ThresholdTable.Published, threshold =>
        {
            Assert.NotEmpty(threshold.Source);
            Assert.NotEmpty(threshold.Region);
            Assert.Null(ThresholdWords.FaultOf(threshold.Measure, threshold.Value));
            Assert.Equal(threshold.Measure, ThresholdWords.MeasureOf(ThresholdWords.NameOf(threshold.Measure)));
        });

    private static Threshold Own(double value, string? plants, string? client) => new(ThresholdMeasure.MitesPerTap, value, plants, client, "garden", "test", true);

    private string OldFile => Path.Combine(_folder, "thresholds.json");

    private RecordStore Store() => RecordStore.Open(_folder, TimeProvider.System);

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
