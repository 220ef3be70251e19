using CsCheck;
using LeafScan.Trends.Sampling;

namespace LeafScan.Trends.Tests.Sampling;

public sealed class SpreadTests
{
    private static readonly TaylorLaw Strawberry = TaylorLaw.StrawberryLeaflets;

    // Raworth 1986, Canadian Entomologist: the abstract prints 0.0644 for the density at which variance equals mean.
    [Fact]
    public void Taylors_law_of_Raworth()
    {
        Assert.Equal(5.812437395, Strawberry.A, 1e-6);
        Assert.Equal(0.0644, Strawberry.MeanWhereSpreadIsByChance!.Value, 6e-4);
        Assert.Equal(0.063927861, Strawberry.MeanWhereSpreadIsByChance.Value, 1e-6);
        Assert.Equal(81.40837677, Strawberry.Variance(5), 1e-6);
    }

    // n = A m^(B-2)/D² (Southwood; Ruesink); computed.
    [Theory]
    [InlineData(1, 92.99899831)]
    [InlineData(5, 52.10136113)]
    [InlineData(10, 40.595535145)]
    public void Units_for_a_precision(double mean, double units) => Assert.Equal(units, Strawberry.Units(mean, 0.25), 1e-6);

    // Green 1970; computed.
    [Theory]
    [InlineData(20, 1429.068288)]
    [InlineData(40, 416.762414)]
    [InlineData(60, 202.692378)]
    public void Greens_stop_line(int units, double total)
        => Assert.Equal(total, new GreenStopLine(Strawberry, 0.25).TotalAt(units)!.Value, 1e-5);

    // Identity: where the line is crossed, the sample has just the size that Taylor's law asks for its mean.
    [Fact]
    public void Green_and_Taylor_ask_for_the_same_sample()
        => Gen.Select(Gen.Int[2, 300], Gen.Double[1.05, 1.95], Gen.Double[0.5, 20], Gen.Double[0.05, 0.5]).Sample((units, b, a, precision) =>
        {
            TaylorLaw law = new(a, b, "", "");
            double mean = new GreenStopLine(law, precision).TotalAt(units)!.Value / units;
            return Math.Abs((law.Units(mean, precision) / units) - 1) < 1e-6;
        });

    [Fact]
    public void At_a_power_of_two_there_is_no_line()
    {
        Assert.Null(new GreenStopLine(new TaylorLaw(3, 2, "", ""), 0.25).TotalAt(10));
        Assert.Null(new TaylorLaw(3, 1, "", "").MeanWhereSpreadIsByChance);
    }

    // Wilson and Room 1983 (formula from memory); computed.
    [Theory]
    [InlineData(0.5, 0.2142)]
    [InlineData(1, 0.3063)]
    [InlineData(2, 0.4213)]
    [InlineData(5, 0.5986)]
    [InlineData(10, 0.7347)]
    [InlineData(20, 0.8517)]
    [InlineData(0, 0)]
    public void Share_of_leaflets_with_mites(double mean, double share) => Assert.Equal(share, Strawberry.ShareInfested(mean), 5e-5);

    // Identity: the negative binomial's zero class, (1 + m/k)^-k with 1/k = A m^(B-2) - 1/m.
    [Fact]
    public void The_share_with_mites_is_that_of_the_negative_binomial()
        => Gen.Select(Gen.Double[0.1, 50], Gen.Double[1.1, 1.9], Gen.Double[2, 20]).Where((mean, b, a) => a * Math.Pow(mean, b - 1) > 1.01).Sample((mean, b, a) =>
        {
            double k = 1 / ((a * Math.Pow(mean, b - 2)) - (1 / mean));
            return Math.Abs(new TaylorLaw(a, b, "", "").ShareInfested(mean) - (1 - Math.Pow(1 + (mean / k), -k))) < 1e-9;
        });

    // Poisson where variance and mean are equal.
    [Fact]
    public void By_chance_alone_the_share_is_Poissons() => Assert.Equal(1 - Math.Exp(-2), new TaylorLaw(1, 1, "", "").ShareInfested(2), 1e-9);

    // Form: Kono and Sugino 1958; a = 2 and b = 1.5 are demo numbers.
    [Theory]
    [InlineData(0.1, 0.252700322)]
    [InlineData(0.25, 1.140139946)]
    [InlineData(0.5, 4.264097784)]
    [InlineData(0.8, 15.086910189)]
    public void Mean_from_the_share_with_mites(double share, double mean) => Assert.Equal(mean, new KonoSugino(2, 1.5).Mean(share)!.Value, 1e-8);

    [Fact]
    public void None_or_all_leaves_with_mites_give_no_mean()
    {
        Assert.Null(new KonoSugino(2, 1.5).Mean(0));
        Assert.Null(new KonoSugino(2, 1.5).Mean(1));
    }

    [Fact]
    public void Fits_find_the_law_that_made_the_numbers()
    {
        double[] means = [0.3, 1, 2, 5, 9, 20];
        TaylorLaw law = TaylorLaw.Fit(means.Select(mean => (mean, Strawberry.Variance(mean))), "leaves")!;
        KonoSugino line = KonoSugino.Fit(new[] { 0.1, 0.2, 0.4, 0.6, 0.8 }.Select(share => (new KonoSugino(2, 1.5).Mean(share)!.Value, share)))!;

        Assert.Equal(Strawberry.A, law.A, 1e-9);
        Assert.Equal(Strawberry.B, law.B, 1e-9);
        Assert.Equal((2.0, 1.5), (Math.Round(line.A, 9), Math.Round(line.B, 9)));
        Assert.Null(TaylorLaw.Fit([(1, 2), (2, 3)], "leaves"));
        Assert.Null(KonoSugino.Fit([]));
    }
}
