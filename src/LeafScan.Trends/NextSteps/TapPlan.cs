using LeafScan.Trends.Sampling;

namespace LeafScan.Trends.NextSteps;

/// <summary>Total at which tapping may stop after a number of taps.</summary>
/// <param name="Taps">Taps so far.</param>
/// <param name="Mites">Mites on all of them together from which it is enough.</param>
public sealed record TapStop(int Taps, int Mites);

/// <summary>
/// How many branches to tap. It estimates a mean; to tell few from many by looking at leaves there is <see cref="LeafPlan"/>, and the
/// two are never mixed.
/// </summary>
/// <param name="Branches">Branches to tap.</param>
/// <param name="Because">What the number rests on.</param>
/// <param name="Stops">Green's stop line for a mean with a standard error of a quarter: tap until the running total reaches it.</param>
/// <param name="StopsBecause">What the stop line rests on.</param>
public sealed record TapPlan(int Branches, string Because, IReadOnlyList<TapStop> Stops, string StopsBecause)
{
    /// <summary>Fewest branches a tap should take. Our own choice.</summary>
    public const int BranchesLeast = 3;

    /// <summary>Most branches that are asked for: more is a morning's work on one plant. Our own choice.</summary>
    public const int BranchesMost = 20;

    private static readonly int[] StopsAt = [3, 5, 8, 12, 16, 20];

    /// <summary>Makes a plan.</summary>
    /// <param name="tap">The plant's latest tap; null for none.</param>
    /// <param name="law">How clumped mites are on the person's own taps; null when there are too few to tell.</param>
    public static TapPlan Of(TapSeen? tap, TaylorLaw? law)
    {
        CountMean? mites = tap is { Counts.Count: > 0 } ? tap.Mites : null;
        bool isKnown = mites is { Total: > 0 };
        double needed = !isKnown ? BranchesLeast : law is null ? UnitsFor(mites!) : law.Units(mites!.Mean, SampleSizes.UsualPrecision);
        int branches = (int)Math.Clamp(Math.Ceiling(needed - 1e-9), BranchesLeast, BranchesMost);
        string because = !isKnown
            ? Words.Text($"With no mites counted yet the number cannot be worked out: at least {BranchesLeast}.")
            : needed > BranchesMost
            ? Words.Text($"{needed:0} would give a standard error of a quarter of the mean ({mites!.Mean:0.0} a tap last time); {BranchesMost} is where we stop asking.")
            : Words.Text($"So many give a standard error of a quarter of the mean, if there are as many as last time ({mites!.Mean:0.0} a tap); at least {BranchesLeast}.");
        GreenStopLine line = new(law ?? ByChance, SampleSizes.UsualPrecision);
        return new TapPlan(
            branches,
            because,
            [.. StopsAt.Select(taps => line.TotalAt(taps) is { } total ? new TapStop(taps, (int)Math.Min(Math.Ceiling(total - 1e-9), int.MaxValue)) : null).OfType<TapStop>()],
            law is null
                ? "Green 1970, for mites that lie as by chance; clumped mites take more. From five days with two taps or more on, your own taps say how clumped they are."
                : Words.Text($"Green 1970, with your own taps: variance = {law.A:0.##} mean^{law.B:0.##}, {law.Source}."));
    }

    internal static int BranchesFor(CountMean mites) => (int)Math.Clamp(Math.Ceiling(UnitsFor(mites) - 1e-9), BranchesLeast, BranchesMost);

    // By the taps' own clumping where they show any.
    private static double UnitsFor(CountMean mites) => SampleSizes.ForMean(mites.Mean, mites.Mean + (mites.K is { } k ? mites.Mean * mites.Mean / k : 0));

    private static TaylorLaw ByChance { get; } = new(1, 1, "counts that vary as by chance", "Poisson");
}
