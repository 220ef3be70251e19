using LeafScan.Trends.Progress;

namespace LeafScan.Trends.Tests.Progress;

public sealed class ScaleTests
{
    // Formula: van der Plank 1963; numbers ours. The third is ln 81: the time from 10 to 90 % is ln(81)/r.
    [Theory]
    [InlineData(0.01, 0.5, 30, 0.153170662)]
    [InlineData(0.05, 0.25, 14, 0.131844764)]
    [InlineData(0.1, 0.9, 1, 4.394449155)]
    public void Apparent_rate(double first, double second, double days, double rate)
        => Assert.Equal(rate, ApparentRate.Of(first, second, days)!.Value, 1e-8);

    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(0.5, 1)]
    public void None_and_all_have_no_rate(double first, double second) => Assert.Null(ApparentRate.Of(first, second, 7));

    // Data and formula: Del Ponte, R for Plant Disease Epidemiology, chapter on ordinal scales; results computed.
    [Theory]
    [InlineData(new[] { 2, 3, 1, 1, 3, 4, 5, 0, 2, 5, 2, 1 }, 0.40277777778)]
    [InlineData(new[] { 3, 4, 4, 6, 5, 4, 4, 0, 2, 1, 1, 5 }, 0.54166666667)]
    [InlineData(new[] { 5, 6, 6, 5, 4, 2, 0, 0, 0, 0, 2, 0 }, 0.41666666667)]
    [InlineData(new[] { 5, 6, 0, 0, 0, 3, 3, 2, 1, 0, 2, 3 }, 0.34722222222)]
    [InlineData(new[] { 0, 0, 0, 0, 2, 3, 2, 5, 6, 2, 1, 0 }, 0.29166666667)]
    public void Severity_index(int[] scores, double index) => Assert.Equal(index, SeverityIndex.Of(scores, 6)!.Value, 1e-8);

    [Fact]
    public void No_leaf_has_no_index_and_a_score_off_the_scale_is_refused()
    {
        Assert.Null(SeverityIndex.Of([], 6));
        Assert.Throws<ArgumentOutOfRangeException>(() => SeverityIndex.Of([7], 6));
    }

    // Form: Tomkiewicz et al. 1993, Exp. Appl. Acarol. 17:29; the power 1.5 is a demo number.
    [Theory]
    [InlineData(1, 0.089)]
    [InlineData(2, 0.253)]
    [InlineData(3, 0.465)]
    [InlineData(4, 0.716)]
    [InlineData(5, 1)]
    public void Leaf_damage_index(double index, double damage) => Assert.Equal(damage, SeverityIndex.DamageOfLeafIndex(index, 1.5), 5e-4);

    // Limits and midpoints in per cent: Horsfall and Barratt 1945 as listed by Del Ponte, R for Plant Disease Epidemiology.
    [Theory]
    [InlineData(1, 0, 3, 1.5)]
    [InlineData(2, 3, 6, 4.5)]
    [InlineData(3, 6, 12, 9)]
    [InlineData(4, 12, 25, 18.5)]
    [InlineData(5, 25, 50, 37.5)]
    [InlineData(6, 50, 75, 62.5)]
    [InlineData(7, 75, 88, 81.5)]
    [InlineData(8, 88, 94, 91)]
    [InlineData(9, 94, 97, 95.5)]
    [InlineData(10, 97, 99.999, 98.5)]
    public void Horsfall_Barratt(int grade, double above, double upTo, double midpoint)
    {
        Assert.Equal(grade, HorsfallBarratt.GradeOf((above + 0.0005) / 100));
        Assert.Equal(grade, HorsfallBarratt.GradeOf(upTo / 100));
        Assert.Equal(midpoint / 100, HorsfallBarratt.MidpointOf(grade), 1e-12);
    }

    [Fact]
    public void Exactly_none_and_exactly_all_have_grades_of_their_own()
    {
        Assert.Equal((0, 0.0), (HorsfallBarratt.GradeOf(0), HorsfallBarratt.MidpointOf(0)));
        Assert.Equal((11, 1.0), (HorsfallBarratt.GradeOf(1), HorsfallBarratt.MidpointOf(11)));
        Assert.Throws<ArgumentOutOfRangeException>(() => HorsfallBarratt.GradeOf(1.01));
    }
}
