namespace LeafScan.Trends.Efficacy;

/// <summary>Efficacy from shares of dead mites among all that were looked at, as in a trial with a lens.</summary>
public static class DeadShares
{
    /// <summary>Abbott 1925 for mortalities: (mT - mC)/(1 - mC).</summary>
    /// <param name="untreatedDead">Share dead without treatment, 0..1.</param>
    /// <param name="treatedDead">Share dead with treatment, 0..1.</param>
    /// <returns>"Cannot say" when all untreated ones are dead.</returns>
    public static EfficacyResult Abbott(double untreatedDead, double treatedDead)
    {
        Check(untreatedDead, nameof(untreatedDead));
        Check(treatedDead, nameof(treatedDead));
        return untreatedDead == 1
            ? EfficacyResult.CannotSay("All untreated mites are dead, so what the treatment added cannot be told.")
            : new EfficacyResult((treatedDead - untreatedDead) / (1 - untreatedDead), null);
    }

    /// <summary>Schneider-Orelli 1947 (after Puentener's manual of 1981): the same formula as <see cref="Abbott"/> for mortalities, under the name that field trials use.</summary>
    /// <param name="untreatedDead">Share dead without treatment, 0..1.</param>
    /// <param name="treatedDead">Share dead with treatment, 0..1.</param>
    public static EfficacyResult SchneiderOrelli(double untreatedDead, double treatedDead) => Abbott(untreatedDead, treatedDead);

    private static void Check(double share, string name)
    {
        if (!(share is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(name, share, "A share of dead mites lies between 0 and 1.");
        }
    }
}
