namespace LeafScan.Trends.Progress;

/// <summary>Indices made of scores given by eye.</summary>
public static class SeverityIndex
{
    /// <summary>Disease severity index: sum of the scores by the greatest possible sum, 0..1 (Chester 1950, as in Del Ponte, R for Plant Disease Epidemiology).</summary>
    /// <param name="scores">One score a leaf, 0 to <paramref name="greatest"/>.</param>
    /// <param name="greatest">Greatest score of the scale, more than 0.</param>
    /// <returns>Null, "cannot say", without a leaf.</returns>
    public static double? Of(IReadOnlyCollection<int> scores, int greatest)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(greatest, 1);
        if (scores.Any(score => score < 0 || score > greatest))
        {
            throw new ArgumentOutOfRangeException(nameof(scores), $"A score lies between 0 and {greatest}.");
        }

        return scores.Count == 0 ? null : scores.Sum() / ((double)scores.Count * greatest);
    }

    /// <summary>
    /// Damage from a mite leaf damage index of 0 to 5: (index/5)^power, because loss of green is not in step with the index
    /// (Tomkiewicz, Skovgård, Nachman and Münster-Swendsen 1993, Exp. Appl. Acarol. 17:29; authors after the first from memory). Turn each leaf round first, average after.
    /// </summary>
    /// <param name="index">Index, 0..5.</param>
    /// <param name="power">Power fitted to the crop, more than 0. There is no default: it must be fitted.</param>
    public static double DamageOfLeafIndex(double index, double power)
    {
        if (!(index is >= 0 and <= 5))
        {
            throw new ArgumentOutOfRangeException(nameof(index), index, "The leaf damage index lies between 0 and 5.");
        }

        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(power);
        return Math.Pow(index / 5, power);
    }
}
