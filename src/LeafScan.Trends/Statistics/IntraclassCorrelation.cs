namespace LeafScan.Trends.Statistics;

/// <summary>
/// Agreement of several raters on the same things (Shrout and Fleiss 1979, Psychological Bulletin 86:420-428). To judge a
/// tool take <see cref="Single21"/>: absolute agreement of a single rating.
/// </summary>
/// <param name="ThingCount">Things rated.</param>
/// <param name="RaterCount">Ratings of each.</param>
/// <param name="BetweenThings">Mean square between things (BMS).</param>
/// <param name="WithinThings">Mean square within things (WMS).</param>
/// <param name="BetweenRaters">Mean square between raters (JMS).</param>
/// <param name="Residual">What is left (EMS).</param>
public sealed record IntraclassCorrelation(
    int ThingCount, int RaterCount, double BetweenThings, double WithinThings, double BetweenRaters, double Residual)
{
    /// <summary>ICC(1,1): one rating, each thing by raters of its own.</summary>
    public double Single11 => (BetweenThings - WithinThings) / (BetweenThings + ((RaterCount - 1) * WithinThings));

    /// <summary>ICC(2,1): one rating, the same raters drawn from many.</summary>
    public double Single21 => (BetweenThings - Residual)
        / (BetweenThings + ((RaterCount - 1) * Residual) + (RaterCount * (BetweenRaters - Residual) / ThingCount));

    /// <summary>ICC(3,1): one rating, exactly these raters, their shifts forgiven.</summary>
    public double Single31 => (BetweenThings - Residual) / (BetweenThings + ((RaterCount - 1) * Residual));

    /// <summary>ICC(1,k): mean of all ratings, each thing by raters of its own.</summary>
    public double Mean1K => (BetweenThings - WithinThings) / BetweenThings;

    /// <summary>ICC(2,k): mean of all ratings, the same raters drawn from many.</summary>
    public double Mean2K => (BetweenThings - Residual) / (BetweenThings + ((BetweenRaters - Residual) / ThingCount));

    /// <summary>ICC(3,k): mean of all ratings, exactly these raters, their shifts forgiven.</summary>
    public double Mean3K => (BetweenThings - Residual) / BetweenThings;

    /// <summary>Takes ratings apart.</summary>
    /// <param name="ratings">One row a thing, one number a rater; rows of equal length.</param>
    /// <returns>Null, "cannot say", for fewer than two things or raters.</returns>
    /// <exception cref="ArgumentException">The rows are not of equal length.</exception>
    public static IntraclassCorrelation? Of(IReadOnlyList<IReadOnlyList<double>> ratings)
    {
        int things = ratings.Count;
        int raters = things == 0 ? 0 : ratings[0].Count;
        if (ratings.Any(row => row.Count != raters))
        {
            throw new ArgumentException("Every thing needs a rating of every rater.", nameof(ratings));
        }

        if (things < 2 || raters < 2)
        {
            return null;
        }

        double mean = ratings.Average(row => row.Average());
        double total = ratings.Sum(row => row.Sum(value => (value - mean) * (value - mean)));
        double between = raters * ratings.Sum(row => Math.Pow(row.Average() - mean, 2));
        double ofRaters = things * Enumerable.Range(0, raters).Sum(rater => Math.Pow(ratings.Average(row => row[rater]) - mean, 2));
        return new IntraclassCorrelation(
            things,
            raters,
            between / (things - 1),
            (total - between) / (things * (raters - 1)),
            ofRaters / (raters - 1),
            (total - between - ofRaters) / ((things - 1) * (raters - 1)));
    }
}
