using CsCheck;
using LeafScan.Trends.Efficacy;

namespace LeafScan.Trends.Tests.Efficacy;

public sealed class EfficacyTests
{
    // US EPA short-term chronic toxicity methods, Table J1, as printed in the documentation of an ecotoxicology library: 0.6410256.
    [Theory]
    [InlineData(0.025, 0)]
    [InlineData(0.65, 0.641025641)]
    [InlineData(1.0, 1)]
    public void Abbott_corrects_mortality_as_in_the_EPAs_table(double treated, double corrected)
        => Assert.Equal(corrected, DeadShares.Abbott(0.025, treated).Share!.Value, 1e-8);

    // Formula: Abbott 1925, J. Econ. Entomol. 18:265-267.
    [Fact]
    public void Abbott_on_live_counts() => Assert.Equal(0.8, LiveCounts.Abbott(100, 20).Share!.Value, 1e-9);

    // Formula: Schneider-Orelli 1947, after Puentener 1981; numbers ours.
    [Fact]
    public void Schneider_Orelli() => Assert.Equal(0.77777777778, DeadShares.SchneiderOrelli(0.1, 0.8).Share!.Value, 1e-8);

    // Formula: Henderson and Tilton 1955, J. Econ. Entomol. 48:157-161. First row: a public test file prints 93.33; the
    // others are our own computation. No worked example of the paper was reachable.
    [Theory]
    [InlineData(40, 60, 50, 5, 0.93333333333)]
    [InlineData(50, 52, 48, 10, 0.79967948718)]
    [InlineData(50, 55, 48, 6, 0.88636363636)]
    [InlineData(50, 60, 48, 9, 0.84375)]
    [InlineData(50, 40, 48, 6, 0.84375)]
    [InlineData(30, 36, 31, 4, 0.89247311828)]
    public void Henderson_Tilton_and_Sun_Shepard(double untreatedBefore, double untreatedAfter, double treatedBefore, double treatedAfter, double share)
    {
        Assert.Equal(share, LiveCounts.HendersonTilton(untreatedBefore, untreatedAfter, treatedBefore, treatedAfter).Share!.Value, 1e-8);
        Assert.Equal(share, LiveCounts.SunShepard(untreatedBefore, untreatedAfter, treatedBefore, treatedAfter).Share!.Value, 1e-8);
    }

    // Sun and Shepard 1947, J. Econ. Entomol. 40:710-715: algebraically the same formula.
    [Fact]
    public void Sun_Shepard_equals_Henderson_Tilton_for_any_counts()
        => Gen.Select(Gen.Double[0.1, 5000], Gen.Double[0.1, 5000], Gen.Double[0.1, 5000], Gen.Double[0, 5000]).Sample((a, b, c, d) =>
        {
            double one = LiveCounts.HendersonTilton(a, b, c, d).Share!.Value;
            double other = LiveCounts.SunShepard(a, b, c, d).Share!.Value;
            return Math.Abs(one - other) <= 1e-9 * Math.Max(1, Math.Abs(one));
        });

    [Fact]
    public void The_same_for_small_whole_counts_with_noughts_among_them()
        => Gen.Select(Gen.Int[0, 3], Gen.Int[0, 3], Gen.Int[0, 3], Gen.Int[0, 3]).Sample((a, b, c, d) =>
        {
            double? one = LiveCounts.HendersonTilton(a, b, c, d).Share;
            double? other = LiveCounts.SunShepard(a, b, c, d).Share;
            bool isDefined = a > 0 && b > 0 && c > 0;
            return one.HasValue == isDefined && other.HasValue == isDefined && (one is null || Math.Abs(one.Value - other!.Value) < 1e-12);
        });

    [Fact]
    public void What_is_undefined_is_a_reason_and_never_a_hundred_per_cent()
    {
        foreach (EfficacyResult result in new[]
        {
            LiveCounts.HendersonTilton(40, 0, 50, 0), LiveCounts.HendersonTilton(0, 10, 50, 0), LiveCounts.HendersonTilton(40, 60, 0, 0),
            LiveCounts.SunShepard(40, 0, 50, 0), LiveCounts.Abbott(0, 0), DeadShares.Abbott(1, 1),
        })
        {
            Assert.Null(result.Share);
            Assert.NotEmpty(result.Because!);
        }
    }

    [Fact]
    public void Treated_plants_that_did_worse_give_less_than_nought()
        => Assert.Equal(-1, LiveCounts.HendersonTilton(10, 10, 10, 20).Share!.Value, 1e-12);

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Counts_that_cannot_be_are_refused(double count)
        => Assert.Throws<ArgumentOutOfRangeException>(() => LiveCounts.Abbott(10, count));

    [Fact]
    public void Several_plants_get_an_interval_that_holds_the_efficacy_of_the_means()
    {
        PlantCount[] untreated = [new(40, 60), new(30, 50), new(55, 70), new(42, 66)];
        PlantCount[] treated = [new(50, 5), new(35, 8), new(60, 2), new(44, 9)];
        EfficacyResult result = PlantCounts.HendersonTilton(untreated, treated, 0.9, new Random(1));

        Assert.Equal(1 - (6 * 41.75 / (47.25 * 61.5)), result.Share!.Value, 1e-9);
        Assert.True(result.Interval!.Value.Holds(result.Share.Value) && result.Interval.Value.Width > 0);
        Assert.Null(PlantCounts.HendersonTilton(untreated[..1], treated, 0.9, new Random(1)).Interval);
    }

    [Fact]
    public void Check_plants_that_mostly_lost_their_mites_give_no_interval()
    {
        EfficacyResult result = PlantCounts.HendersonTilton([new(40, 1), new(30, 0), new(20, 0)], [new(50, 5), new(35, 8)], 0.9, new Random(1));

        Assert.NotNull(result.Share);
        Assert.Null(result.Interval);
    }
}
