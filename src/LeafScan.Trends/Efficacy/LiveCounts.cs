namespace LeafScan.Trends.Efficacy;

/// <summary>
/// Efficacy from counts of live mites: means per tap or leaf, or totals of equal samples. Only live mites may enter. Damage
/// must not: it cannot fall. Average the counts first, never the percentages.
/// </summary>
public static class LiveCounts
{
    /// <summary>
    /// Abbott 1925, J. Econ. Entomol. 18:265-267: 1 - Ta/Ca. For plants that began alike. No mites left on the
    /// untreated plants is "cannot say".
    /// </summary>
    /// <param name="untreatedAfter">Live mites on untreated plants, 0 or more.</param>
    /// <param name="treatedAfter">Live mites on treated plants, 0 or more.</param>
    public static EfficacyResult Abbott(double untreatedAfter, double treatedAfter)
    {
        Check(untreatedAfter, treatedAfter);
        return untreatedAfter == 0
            ? EfficacyResult.CannotSay("No mites are left on the untreated plants, so what the treatment added cannot be told.")
            : new EfficacyResult(1 - (treatedAfter / untreatedAfter), null);
    }

    /// <summary>
    /// Henderson and Tilton 1955, J. Econ. Entomol. 48:157-161: 1 - (Ta Cb)/(Tb Ca). For plants that began with
    /// different counts.
    /// </summary>
    /// <param name="untreatedBefore">Live mites on untreated plants before, 0 or more.</param>
    /// <param name="untreatedAfter">Live mites on untreated plants after.</param>
    /// <param name="treatedBefore">Live mites on treated plants before.</param>
    /// <param name="treatedAfter">Live mites on treated plants after.</param>
    public static EfficacyResult HendersonTilton(double untreatedBefore, double untreatedAfter, double treatedBefore, double treatedAfter)
    {
        Check(untreatedBefore, untreatedAfter, treatedBefore, treatedAfter);
        return Undefined(untreatedBefore, untreatedAfter, treatedBefore)
            ?? new EfficacyResult(1 - (treatedAfter * untreatedBefore / (treatedBefore * untreatedAfter)), null);
    }

    /// <summary>
    /// Sun and Shepard 1947, J. Econ. Entomol. 40:710-715: (mT + c)/(1 + c), where mT is the fall on treated plants and
    /// c the signed change on untreated ones. The same as <see cref="HendersonTilton"/> in other words.
    /// </summary>
    /// <param name="untreatedBefore">Live mites on untreated plants before, 0 or more.</param>
    /// <param name="untreatedAfter">Live mites on untreated plants after.</param>
    /// <param name="treatedBefore">Live mites on treated plants before.</param>
    /// <param name="treatedAfter">Live mites on treated plants after.</param>
    public static EfficacyResult SunShepard(double untreatedBefore, double untreatedAfter, double treatedBefore, double treatedAfter)
    {
        Check(untreatedBefore, untreatedAfter, treatedBefore, treatedAfter);
        if (Undefined(untreatedBefore, untreatedAfter, treatedBefore) is { } cannotSay)
        {
            return cannotSay;
        }

        double fall = (treatedBefore - treatedAfter) / treatedBefore;
        double change = (untreatedAfter - untreatedBefore) / untreatedBefore;
        return new EfficacyResult((fall + change) / (1 + change), null);
    }

    private static EfficacyResult? Undefined(double untreatedBefore, double untreatedAfter, double treatedBefore)
    {
        if (treatedBefore == 0)
        {
            return EfficacyResult.CannotSay("There were no mites on the treated plants before, so there was nothing to take away.");
        }

        if (untreatedBefore == 0)
        {
            return EfficacyResult.CannotSay("There were no mites on the untreated plants before, so their change cannot be told.");
        }

        return untreatedAfter == 0
            ? EfficacyResult.CannotSay("The mites are gone from the untreated plants too, so what the treatment added cannot be told.")
            : null;
    }

    private static void Check(params ReadOnlySpan<double> counts)
    {
        foreach (double count in counts)
        {
            if (!(count >= 0 && double.IsFinite(count)))
            {
                throw new ArgumentOutOfRangeException(nameof(counts), count, "A count of live mites is 0 or more.");
            }
        }
    }
}
