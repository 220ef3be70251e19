namespace LeafScan.Taps;

/// <summary>Why mites that crawled may be missing from the count.</summary>
internal sealed record CountLosses
{
    /// <summary>Share of the mites that are smaller than what the photos show, 0..1.</summary>
    public double Faint { get; init; }

    /// <summary>True when a photo is blurred: neighbours run together, and mites pale for their kind are lost beyond what <see cref="Faint"/> says.</summary>
    public bool Blurred { get; init; }

    /// <summary>True when a photo is blurred and no scale says how much of the mites that hides: then several times as many may be there as are seen.</summary>
    public bool BlurredUnscaled { get; init; }

    /// <summary>Share of the sheet that hard edges of light hide, 0..1: as many may walk there as elsewhere.</summary>
    public double Unjudged { get; init; }

    /// <summary>True when hard edges of light lie on the sheet: beside what they hide, what shows at their new place in one photo only looks like a walker.</summary>
    public bool Patchy { get; init; }

    /// <summary>True when the wind blew: what walks as the wind goes is taken for blown.</summary>
    public bool Windy { get; init; }

    /// <summary>True when a hand shook: small mites drown in their own smear, beyond what <see cref="Faint"/> says.</summary>
    public bool Shaken { get; init; }
}

/// <summary>
/// The 90 % interval of the number that crawled on this sheet between the photos: what was missed and what was taken
/// for a walker by mistake. It says nothing of mites that stayed on the plant or rested.
/// </summary>
internal static class CountInterval
{
    // Fitted on rendered sheets (seeds 2004 to 3020) so that about nine in ten intervals hold the truth; docs/accuracy.md has the check on others.
    private const double MissedShare = 0.04;
    private const double LostShare = 0.3;
    private const double FalseShare = 0.02;
    private const double BlurredShare = 0.1;
    private const double BlurredMore = 0.4;
    private const double UnscaledTimes = 3;
    private const double UnscaledMore = 3;
    private const double ShakenShare = 0.05;
    private const double ShakenMore = 0.4;
    private const double PatchyShare = 0.1;
    private const double PatchyMore = 0.3;
    private const double PatchyFalse = 0.25;
    private const double WindyShare = 0.12;
    private const double WindyMore = 0.3;
    private const double SpreadUp = 0.3;
    private const double SpreadDown = 0.8;

    /// <summary>Works it out: misses and mistakes are rare and independent, so their number spreads by its root (Poisson).</summary>
    /// <param name="crawling">Walkers found.</param>
    /// <param name="unpaired">Mite-like specks that were seen in one photo only: each may be a walker that was lost.</param>
    /// <param name="losses">What else may hide walkers; null for nothing.</param>
    public static (int Low, int High) Of(int crawling, int unpaired, CountLosses? losses = null)
    {
        losses ??= new CountLosses();
        double missed = (MissedShare * crawling) + (LostShare * unpaired)
            + Hidden(crawling, losses.Faint) + Hidden(crawling, losses.Unjudged)
            + When(losses.Blurred, BlurredShare, BlurredMore) + When(losses.BlurredUnscaled, UnscaledTimes, UnscaledMore)
            + When(losses.Shaken, ShakenShare, ShakenMore)
            + When(losses.Patchy, PatchyShare, PatchyMore) + When(losses.Windy, WindyShare, WindyMore);
        double wrong = (FalseShare * crawling) + (losses.Patchy ? PatchyFalse : 0);
        int high = crawling + (int)Math.Floor(missed + (SpreadUp * Math.Sqrt(missed)) + 0.5);
        int low = crawling - (int)Math.Floor(wrong + (SpreadDown * Math.Sqrt(wrong)) + 0.5);
        return (Math.Max(0, low), high);

        double When(bool holds, double share, double more) => holds ? (share * crawling) + more : 0;
    }

    // When a share cannot be seen, those that were found stand for the rest.
    private static double Hidden(int crawling, double share) => crawling * share / Math.Max(0.1, 1 - share);
}
