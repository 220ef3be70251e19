using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests.Statistics;

public sealed class IntraclassTests
{
    // Shrout and Fleiss 1979, Psychological Bulletin 86:420-428, Table 2; they print .17 .29 .71 .44 .62 .91.
    [Fact]
    public void Four_judges_agree_as_in_Shrout_and_Fleiss()
    {
        IntraclassCorrelation agreement = IntraclassCorrelation.Of(
            [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]])!;

        Assert.Equal(11.241666667, agreement.BetweenThings, 1e-8);
        Assert.Equal(6.263888889, agreement.WithinThings, 1e-8);
        Assert.Equal(32.486111111, agreement.BetweenRaters, 1e-8);
        Assert.Equal(1.019444444, agreement.Residual, 1e-8);
        Assert.Equal(0.165741768, agreement.Single11, 1e-8);
        Assert.Equal(0.28976378, agreement.Single21, 1e-8);
        Assert.Equal(0.714840715, agreement.Single31, 1e-8);
        Assert.Equal(0.442797134, agreement.Mean1K, 1e-8);
        Assert.Equal(0.620050548, agreement.Mean2K, 1e-8);
        Assert.Equal(0.909315542, agreement.Mean3K, 1e-8);
    }

    // Same data as in AgreementTests: Del Ponte, R for Plant Disease Epidemiology; results by our own computation.
    [Fact]
    public void Four_unaided_raters_of_soybean_rust()
    {
        double[][] raters = AgreementTests.Raters;
        IntraclassCorrelation agreement = IntraclassCorrelation.Of(
            [.. Enumerable.Range(0, 20).Select(leaf => (double[])[.. raters.Select(rater => rater[leaf])])])!;

        Assert.Equal(0.640502442, agreement.Single11, 1e-8);
        Assert.Equal(0.646412276, agreement.Single21, 1e-8);
        Assert.Equal(0.691909912, agreement.Single31, 1e-8);
        Assert.Equal(0.879700839, agreement.Mean2K, 1e-8);
    }

    [Fact]
    public void One_rater_or_gaps_say_nothing()
    {
        Assert.Null(IntraclassCorrelation.Of([[1.0], [2.0]]));
        Assert.Throws<ArgumentException>(() => IntraclassCorrelation.Of([[1.0, 2], [2.0]]));
    }
}
