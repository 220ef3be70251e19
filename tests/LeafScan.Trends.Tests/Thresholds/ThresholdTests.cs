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
    public void What_is_set_stays_until_it_is_dropped()
    {
        RecordThresholds.Set(_folder, Own(5, "Rosa", null));
        RecordThresholds.Set(_folder, Own(6, "rosa", null));
        Assert.Equal(6, Assert.Single(RecordThresholds.Load(_folder).Own).Value);
        Assert.Null(RecordThresholds.Drop(_folder, ThresholdMeasure.MitesPerTap, null, null));
        Assert.Equal(6, RecordThresholds.Drop(_folder, ThresholdMeasure.MitesPerTap, "Rosa", null)!.Value);
        Assert.Empty(RecordThresholds.Load(_folder).Own);
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{\"schema\":\"leafscan.own-thresholds/1\",\"thresholds\":[null]}")]
    [InlineData("{\"schema\":\"leafscan.own-thresholds/9\",\"thresholds\":[]}")]
    [InlineData("{\"schema\":\"leafscan.own-thresholds/1\",\"thresholds\":[{\"measure\":\"mites-per-tap\",\"value\":-1,\"region\":\"\",\"source\":\"x\"}]}")]
    [InlineData("{\"schema\":\"leafscan.own-thresholds/1\",\"thresholds\":[{\"measure\":\"bees\",\"value\":1,\"region\":\"\",\"source\":\"x\"}]}")]
    public void A_file_that_is_none_of_ours_is_refused_in_a_sentence(string text)
    {
        File.WriteAllText(Path.Combine(_folder, OwnThresholds.FileName), text);
        Assert.Contains(OwnThresholds.FileName, Assert.Throws<RecordException>(() => RecordThresholds.Load(_folder)).Message, StringComparison.Ordinal);
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

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
