namespace LeafScan.Trends.Sampling;

/// <summary>
/// Mean from the share of units with mites (Kono and Sugino 1958): ln m = A + B ln(-ln(1 - p)). No published A and B for
/// twospotted mites could be reached, so there is no default: enter or fit one's own, and take the mean as rough.
/// </summary>
/// <param name="A">Intercept.</param>
/// <param name="B">Slope.</param>
public sealed record KonoSugino(double A, double B)
{
    /// <summary>Mean of a unit.</summary>
    /// <param name="shareInfested">Share of units with at least one mite, 0..1.</param>
    /// <returns>Null, "cannot say", for 0 and 1: take <see cref="NoneFound"/> for 0.</returns>
    public double? Mean(double shareInfested)
    {
        if (!(shareInfested is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(shareInfested), shareInfested, "A share lies between 0 and 1.");
        }

        return shareInfested is 0 or 1 ? null : Math.Exp(A + (B * Math.Log(-Math.Log(1 - shareInfested))));
    }

    /// <summary>Fits A and B to samples of one's own.</summary>
    /// <param name="samples">Mean and share infested of each; those with a mean of 0 or a share of 0 or 1 are passed over.</param>
    /// <returns>Null, "cannot say", for fewer than five that can be used or when all shares are alike.</returns>
    public static KonoSugino? Fit(IEnumerable<(double Mean, double ShareInfested)> samples)
    {
        (double Mean, double ShareInfested)[] usable = [.. samples.Where(sample => sample.Mean > 0 && sample.ShareInfested is > 0 and < 1)];
        double[] shares = [.. usable.Select(sample => Math.Log(-Math.Log(1 - sample.ShareInfested)))];
        if (usable.Length < 5 || shares.Max() - shares.Min() < 1e-9)
        {
            return null;
        }

        (double a, double b) = MathNet.Numerics.Fit.Line(shares, [.. usable.Select(sample => Math.Log(sample.Mean))]);
        return new KonoSugino(a, b);
    }
}
