using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests;

/// <summary>Concordance and limits of agreement against published data.</summary>
public sealed class AgreementTests
{
    // Peak flow, first readings of two meters: Bland and Altman 1986, The Lancet 327:307-310, Table 1.
    private static readonly double[] Wright = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
    private static readonly double[] Mini = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];

    // Soybean rust severity in per cent, 20 leaves, four unaided raters: Del Ponte, R for Plant Disease Epidemiology,
    // chapter on reliability and accuracy.
    private static readonly double[] Actual = [0.25, 2.5, 7.24, 7.31, 9.07, 11.6, 12.46, 13.1, 14.61, 16.06, 16.7, 19.5, 20.75, 23.56, 23.77, 24.45, 25.78, 26.03, 26.42, 28.89];

    internal static readonly double[][] Raters =
    [
        [0.6, 2, 5, 2, 6, 5, 10, 15, 7, 6, 7, 6, 10, 19, 15, 17, 19, 17, 15, 18],
        [0.6, 0.7, 5, 4, 14, 6, 18, 30, 2, 9, 7, 23, 35, 10, 20, 30, 53, 6.8, 20, 22],
        [0.7, 5, 8, 6, 10, 10, 12.5, 22, 12, 11.5, 20, 22, 18.5, 9, 19, 18, 33, 15, 18, 24],
        [0.6, 1, 5, 2, 7, 5, 12, 10, 8, 8, 9, 14, 20, 10, 20, 13, 38, 9, 16, 15],
    ];

    [Fact]
    public void Peak_flow_meters_agree_as_Lin_1989_computes_it_with_divisor_n()
    {
        Concordance agreement = Concordance.Of(Wright, Mini);

        Assert.Equal(0.942742431, agreement.Ccc, 1e-9);
        Assert.Equal(0.943279447, agreement.PearsonR, 1e-9);
        Assert.Equal(0.999430693, agreement.Cb, 1e-9);
        Assert.Equal(1.028267991, agreement.ScaleShift, 1e-9);
        Assert.Equal(-0.01903025, agreement.LocationShift, 1e-8);
        Interval interval = agreement.IntervalAt(0.95)!.Value;
        Assert.Equal(0.850492, interval.Low, 1e-6);
        Assert.Equal(0.978726, interval.High, 1e-6);
    }

    [Fact]
    public void Peak_flow_meters_agree_slightly_otherwise_with_divisor_n_less_one()
    {
        Concordance agreement = Concordance.Of(Wright, Mini, VarianceDivisor.CountMinusOne);

        Assert.Equal(0.942752467, agreement.Ccc, 1e-9);
        Assert.Equal(0.999441333, agreement.Cb, 1e-9);
    }

    // The chapter prints precision as Cb times Ccc; right is r = Ccc / Cb, and that is what is checked.
    [Theory]
    [InlineData(0, 0.6054, 0.8726, 0.6938, 0.5968)]
    [InlineData(1, 0.5231, 0.5845, 0.8949, 0.5231)]
    [InlineData(2, 0.7316, 0.7532, 0.9713, 0.7307)]
    [InlineData(3, 0.5913, 0.7108, 0.8319, 0.5861)]
    public void Four_unaided_raters_score_as_published(int rater, double ccc, double r, double cb, double cccDivisorN)
    {
        Concordance agreement = Concordance.Of(Raters[rater], Actual, VarianceDivisor.CountMinusOne);

        Assert.Equal(ccc, agreement.Ccc, 5e-5);
        Assert.Equal(r, agreement.PearsonR, 5e-5);
        Assert.Equal(cb, agreement.Cb, 5e-5);
        Assert.Equal(cccDivisorN, Concordance.Of(Raters[rater], Actual).Ccc, 5e-5);
    }

    // Identity: the coefficient is precision times accuracy, and swapping the two methods only turns the shifts round.
    [Fact]
    public void The_coefficient_is_precision_times_accuracy_and_the_same_from_both_sides()
    {
        Concordance one = Concordance.Of(Wright, Mini);
        Concordance other = Concordance.Of(Mini, Wright);

        Assert.Equal(one.Ccc, one.PearsonR * one.Cb, 1e-12);
        Assert.Equal(one.Ccc, other.Ccc, 1e-12);
        Assert.Equal(1, one.ScaleShift * other.ScaleShift, 1e-12);
        Assert.Equal(0, one.LocationShift + other.LocationShift, 1e-12);
    }

    [Fact]
    public void Equal_values_agree_fully_and_a_flat_measurement_not_at_all()
    {
        Assert.Equal(1, Concordance.Of(Actual, Actual).Ccc, 1e-12);
        Assert.Equal(0, Concordance.Of([5, 5, 5], [1, 2, 3]).Ccc, 1e-12);
        Assert.Null(Concordance.Of([5, 5, 5], [1, 2, 3]).IntervalAt(0.9));
        Assert.Equal(1, Concordance.Of([0, 0, 0], [0, 0, 0]).Ccc);
    }

    [Fact]
    public void Lists_of_unequal_length_are_refused()
        => Assert.Throws<ArgumentException>(() => Concordance.Of([1, 2, 3], [1, 2]));

    // Published, rounded: mean -2.1 and standard deviation 38.8 l/min, limits about -80 and +75 with two standard deviations.
    [Fact]
    public void Limits_of_agreement_of_the_peak_flow_meters_are_those_of_the_paper()
    {
        BlandAltman agreement = BlandAltman.Of(Wright, Mini);

        Assert.Equal(-2.117647059, agreement.Bias, 1e-9);
        Assert.Equal(38.76512987, agreement.DifferenceSd, 1e-8);
        Assert.Equal(9.401925, agreement.BiasStandardError, 1e-6);
        Assert.Equal((-78.09730161, 73.86200749), Rounded(agreement.Limits()));
        Assert.Equal((-79.64790681, 75.41261269), Rounded(agreement.Limits(BlandAltman.TwoSd)));
    }

    private static (double Lower, double Upper) Rounded((double Lower, double Upper) limits) => (Math.Round(limits.Lower, 8), Math.Round(limits.Upper, 8));
}
