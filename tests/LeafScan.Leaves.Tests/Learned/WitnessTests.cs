using LeafScan.Leaves.Learned;

namespace LeafScan.Leaves.Tests.Learned;

public class WitnessTests
{
    [Theory]
    [InlineData(0.95, 0.30, 0.32, 0.31, false)]
    [InlineData(0.95, 0.30, 0.50, 0.31, false)]
    [InlineData(0.95, 0.30, 0.30, 0.40, true)]
    [InlineData(0.50, 0.30, 0.30, 0.30, true)]
    [InlineData(0.95, 0.30, null, 0.30, true)]
    public void Ways_part_by_their_cuts_or_on_the_same_pixels(double overlap, double network, double? colour, double onSame, bool part)
        => Assert.Equal(part, new Witness(overlap, network, colour, onSame, Witness.OfTwigs).Part);

    [Fact]
    public void Where_ways_part_the_interval_holds_what_both_say_and_elsewhere_it_stays()
    {
        Witness parting = new(0.5, 0.4, 0.1, 0.45, Witness.OfTwigs);
        Assert.Equal((0.1, 0.45), parting.Widen((0.38, 0.42)));
        Witness agreeing = parting with { Overlap = 0.9 };
        Assert.Equal((0.38, 0.42), agreeing.Widen((0.38, 0.42)));
    }

    [Fact]
    public void Colour_decides_on_the_same_pixels_only_where_the_sound_colour_is_sure()
    {
        Witness witness = new(0.95, 0.4, 0.2, 0.2, Witness.OfPlants);
        Assert.True(witness.TissueByColour(soundColourSure: true));
        Assert.False(witness.TissueByColour(soundColourSure: false));
        Assert.False((witness with { ColourOnSame = 0.37 }).TissueByColour(soundColourSure: true));
    }

    [Theory]
    [InlineData(null, 0.3, true)]
    [InlineData(null, null, false)]
    [InlineData(0.3, 0.3, false)]
    public void Where_only_colour_sees_something_its_cut_counts(double? network, double? colour, bool byColour)
        => Assert.Equal(byColour, new Witness(network is null ? 0 : 0.9, network, colour, network, Witness.OfPlants).CutByColour(onSheet: false));

    [Fact]
    public void A_cut_on_a_sheet_that_is_another_one_gives_way()
    {
        Witness witness = new(0.7, 0.4, 0.2, 0.2, Witness.OfTwigs);
        Assert.True(witness.CutByColour(onSheet: true));
        Assert.False(witness.CutByColour(onSheet: false));
        Assert.False((witness with { Colour = null }).CutByColour(onSheet: true));
    }
}
