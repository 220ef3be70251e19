using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests.Statistics;

/// <summary>Tests on pairs and groups against published data.</summary>
public sealed class PairedTests
{
    // Darwin's maize, eighths of an inch: Fisher 1935, The Design of Experiments, section 21. Fisher prints 863 of 32768
    // (count from memory, data confirmed).
    private static readonly double[] Maize = [49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48];

    [Fact]
    public void Darwins_maize_gives_Fishers_count()
    {
        PermutationTest test = PermutationTest.OfPairs(Maize, new Random(1));

        Assert.True(test.IsExact);
        Assert.Equal(32768, test.Arrangements);
        Assert.Equal(863, test.AtLeast);
        Assert.Equal(32768 - 835, test.AtMost);
        Assert.Equal(0.02633667, test.PGreater, 1e-8);
        Assert.Equal(0.05267334, test.PTwoSided, 1e-8);
        PairedDifference pairs = PairedDifference.Of(Maize, 0.95)!;
        Assert.Equal(2.147987461, pairs.T, 1e-8);
        Assert.Equal(0.049702944, pairs.PTwoSided, 1e-8);
    }

    [Fact]
    public void Many_pairs_are_drawn_and_come_near_the_t_test()
    {
        double[] twice = [.. Maize, .. Maize];
        PermutationTest test = PermutationTest.OfPairs(twice, new Random(3));

        Assert.False(test.IsExact);
        Assert.Equal(PairedDifference.Of(twice, 0.9)!.PTwoSided, test.PTwoSided, 0.003);
    }

    // The first is in the documentation of a statistics library (from memory), reproduced by our own enumeration.
    [Fact]
    public void Signed_ranks_of_Darwins_maize()
    {
        WilcoxonSignedRank test = WilcoxonSignedRank.Of(Maize)!;

        Assert.Equal(24, test.WMinus);
        Assert.Equal(0.041259766, test.PTwoSided, 1e-8);
    }

    // Hollander and Wolfe 1973, p. 29; R's help page of the test reports V = 40, p = 0.01953.
    [Fact]
    public void Signed_ranks_of_the_depression_scores()
    {
        double[] before = [1.83, 0.5, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.3];
        double[] after = [0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29];
        WilcoxonSignedRank test = WilcoxonSignedRank.Of([.. before.Zip(after, (first, second) => first - second)])!;

        Assert.Equal((40.0, 5.0), (test.WPlus, test.WMinus));
        Assert.Equal(0.01953125, test.PGreater, 1e-10);
        Assert.Equal(0.0390625, test.PTwoSided, 1e-10);
    }

    // By hand: sizes 1, 1, 2 share ranks 1.5, 1.5, 3; of eight sign patterns WPlus of 4.5 or more has 3 (6, 4.5, 4.5).
    [Fact]
    public void Shared_ranks_are_exact_and_nought_is_left_out()
    {
        WilcoxonSignedRank test = WilcoxonSignedRank.Of([1, -1, 2, 0])!;

        Assert.Equal((3, 1, 4.5, 1.5), (test.Count, test.ZeroCount, test.WPlus, test.WMinus));
        Assert.Equal(3 / 8.0, test.PGreater, 1e-12);
        Assert.Null(WilcoxonSignedRank.Of([0, 0]));
    }

    [Fact]
    public void Beyond_the_exact_the_normal_value_goes_on_from_it()
    {
        double[] sixty = [.. Enumerable.Range(1, 60).Select(number => number % 3 == 0 ? -number : (double)number)];
        WilcoxonSignedRank exact = WilcoxonSignedRank.Of(sixty)!;
        WilcoxonSignedRank near = WilcoxonSignedRank.Of([.. sixty, 0.5])!;

        Assert.True(exact.IsExact && !near.IsExact);
        Assert.Equal(exact.PTwoSided, near.PTwoSided, 0.003);
    }

    // Our own enumeration: four plants a side can just reach 0.05.
    [Fact]
    public void Four_untreated_and_four_treated_plants_can_just_show_it()
    {
        PermutationTest test = PermutationTest.OfGroups([3, 4, 2, 5], [-1, 0, 1, -2], new Random(1));

        Assert.Equal(4, test.MeanDifference, 1e-12);
        Assert.Equal((70L, 2L), (test.Arrangements, test.AsFar));
        Assert.Equal(0.028571429, test.PTwoSided, 1e-8);
    }

    [Fact]
    public void Too_many_arrangements_are_drawn_with_the_observed_one_among_them()
    {
        double[] high = [.. Enumerable.Range(20, 15).Select(number => (double)number)];
        double[] low = [.. Enumerable.Range(0, 15).Select(number => (double)number)];
        PermutationTest test = PermutationTest.OfGroups(high, low, new Random(5), 2000);

        Assert.False(test.IsExact);
        Assert.True(test.AtLeast >= 1 && test.PTwoSided < 0.01);
    }

    [Fact]
    public void One_pair_says_nothing_of_the_mean()
    {
        Assert.Null(PairedDifference.Of([0.1], 0.9));
        Assert.Equal(1, PairedDifference.Of([0, 0, 0], 0.9)!.PTwoSided);
    }
}
