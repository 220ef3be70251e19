namespace LeafScan.Trends.Sampling;

/// <summary>
/// Taylor's power law: variance = A mean^B over sample units (Taylor 1961, Nature 189:732-735). It says how clumped mites
/// are, and with that how many units a mean takes.
/// </summary>
/// <param name="A">Coefficient, more than 0; not its logarithm.</param>
/// <param name="B">Power: 1 is as by chance, above 1 clumped.</param>
/// <param name="Of">What it was fitted to, in words.</param>
/// <param name="Source">Where it is published, or who fitted it.</param>
public sealed record TaylorLaw(double A, double B, string Of, string Source)
{
    /// <summary>
    /// Twospotted mite on strawberry in harvest: ln A = 1.76, B = 1.64 (Raworth 1986, Canadian Entomologist; year from
    /// memory). Mites on ornamentals need not be spread like this: a stand-in until counts of one's own are fitted.
    /// </summary>
    public static TaylorLaw StrawberryLeaflets { get; } = new(
        Math.Exp(1.76), 1.64, "mobile twospotted mites on a strawberry leaflet", "Raworth 1986, Canadian Entomologist");

    /// <summary>Variance at a mean.</summary>
    /// <param name="mean">Mean of a unit, 0 or more.</param>
    public double Variance(double mean) => A * Math.Pow(mean, B);

    /// <summary>Mean at which variance and mean are equal; null, "cannot say", for B = 1.</summary>
    public double? MeanWhereSpreadIsByChance => B == 1 ? null : Math.Pow(A, 1 / (1 - B));

    /// <summary>Units for a mean with a wanted precision: A mean^(B-2)/D² (Southwood, Ecological Methods; Ruesink). Not rounded.</summary>
    /// <param name="mean">Expected mean of a unit, more than 0.</param>
    /// <param name="precision">D: standard error by mean. 0.25 is usual for deciding, 0.10 for research.</param>
    public double Units(double mean, double precision)
    {
        CheckMean(mean);
        SampleSizes.CheckPrecision(precision);
        return A * Math.Pow(mean, B - 2) / (precision * precision);
    }

    /// <summary>
    /// Share of units with at least one mite at a mean (Wilson and Room 1983, formula from memory): 1 - exp(-m ln q/(q-1)),
    /// q = A m^(B-1). It is the negative binomial's share with 1/k = A m^(B-2) - 1/m; where units vary as by chance, Poisson's.
    /// </summary>
    /// <param name="mean">Mean of a unit, 0 or more.</param>
    public double ShareInfested(double mean)
    {
        if (mean == 0)
        {
            return 0;
        }

        CheckMean(mean);
        double q = A * Math.Pow(mean, B - 1);

        // ln q/(q-1) tends to 1 where q does.
        double scale = Math.Abs(q - 1) < 1e-9 ? 1 : Math.Log(q) / (q - 1);
        return 1 - Math.Exp(-mean * scale);
    }

    /// <summary>Fits the law to groups of counts of one's own: a straight line through ln variance and ln mean.</summary>
    /// <param name="groups">Mean and variance of each group; groups with a mean or variance of 0 are passed over.</param>
    /// <param name="of">What was counted, in words.</param>
    /// <returns>Null, "cannot say", for fewer than five groups that can be used or when all means are alike.</returns>
    public static TaylorLaw? Fit(IEnumerable<(double Mean, double Variance)> groups, string of)
    {
        (double Mean, double Variance)[] usable = [.. groups.Where(group => group is { Mean: > 0, Variance: > 0 })];
        double[] means = [.. usable.Select(group => Math.Log(group.Mean))];
        if (usable.Length < 5 || means.Max() - means.Min() < 1e-9)
        {
            return null;
        }

        (double intercept, double slope) = MathNet.Numerics.Fit.Line(means, [.. usable.Select(group => Math.Log(group.Variance))]);
        return new TaylorLaw(Math.Exp(intercept), slope, of, $"fitted to {usable.Length} of your own samples");
    }

    internal static void CheckMean(double mean)
    {
        if (!(mean > 0 && double.IsFinite(mean)))
        {
            throw new ArgumentOutOfRangeException(nameof(mean), mean, "A mean count of mites lies above 0.");
        }
    }
}
