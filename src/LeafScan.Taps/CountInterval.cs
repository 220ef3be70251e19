namespace LeafScan.Taps;

/// <summary>
/// The 90 % interval of the number that crawled on this sheet between the photos: what was missed and what was taken
/// for a walker by mistake. It says nothing of mites that stayed on the plant or rested.
/// </summary>
internal static class CountInterval
{
    /// <summary>Works it out.</summary>
    /// <param name="crawling">Walkers found.</param>
    /// <param name="unpaired">Mite-like specks that were seen in one photo only: each may be a walker that was lost.</param>
    public static (int Low, int High) Of(int crawling, int unpaired)
    {
        double falseOnes = 0.03 * crawling;
        double missed = (0.05 * crawling) + (0.5 * unpaired);
        int low = (int)Math.Floor(crawling - falseOnes - (1.2 * Math.Sqrt(falseOnes)));
        int high = (int)Math.Ceiling(crawling + missed + (1.2 * Math.Sqrt(missed)));
        return (Math.Max(0, low), high);
    }
}
