namespace LeafScan.Leaves.Reading;

/// <summary>
/// Rounds a reading to digits that can mean something, so that a document is short and the same on every machine.
/// Shares are rounded together: they still add up to 1.
/// </summary>
public static class ReadingRounding
{
    private const int ShareUnits = 1_000_000;

    /// <summary>Every photo of the document rounded; nothing else changed.</summary>
    public static ReadingDocument Round(ReadingDocument document) =>
        document with { Photos = [.. document.Photos.Select(Round)] };

    /// <summary>The photo with its scale and its leaves rounded.</summary>
    public static PhotoReading Round(PhotoReading photo) => photo with
    {
        PixelsPerMm = Digits(photo.PixelsPerMm, 4),
        Leaves = [.. photo.Leaves.Select(Round)],
    };

    /// <summary>
    /// Shares and damage to 6 digits, areas to 1, diameters and densities to 2, scores to 3, speck centres to a tenth of
    /// a pixel.
    /// </summary>
    public static LeafReading Round(LeafReading leaf) => leaf with
    {
        AreaPx = Math.Round(leaf.AreaPx, 1),
        AreaMm2 = Digits(leaf.AreaMm2, 2),
        Shares = Round(leaf.Shares),
        Damage = Math.Round(leaf.Damage, 6),
        DamageLow = Math.Round(leaf.DamageLow, 6),
        DamageHigh = Math.Round(leaf.DamageHigh, 6),
        SpeckDensityPerCm2 = Digits(leaf.SpeckDensityPerCm2, 2),
        SpeckDiameterMedianPx = Math.Round(leaf.SpeckDiameterMedianPx, 2),
        SpeckCentres = [.. leaf.SpeckCentres.Select(speck =>
            new SpeckMark(Math.Round(speck.X, 1), Math.Round(speck.Y, 1), Math.Round(speck.DiameterPx, 2)))],
        Causes = [.. leaf.Causes.Select(cause => cause with { Score = Math.Round(cause.Score, 3) })],
        Greenness = Digits(leaf.Greenness, 4),
        NewGrowth = Digits(leaf.NewGrowth, 4),
        NeedleLengthMm = Digits(leaf.NeedleLengthMm, 1),
        SpecksPerCmOfNeedle = Digits(leaf.SpecksPerCmOfNeedle, 2),
        Crown = leaf.Crown is { } crown ? Round(crown) : null,
    };

    private static CrownReading Round(CrownReading crown) => crown with
    {
        Thinning = Math.Round(crown.Thinning, 4),
        ThinningLow = Math.Round(crown.ThinningLow, 4),
        ThinningHigh = Math.Round(crown.ThinningHigh, 4),
        FallColour = Math.Round(crown.FallColour, 4),
        Sectors = [.. crown.Sectors.Select(sector => sector with
        {
            Discoloured = Digits(sector.Discoloured, 4),
            Thinning = Math.Round(sector.Thinning, 4),
            Greenness = Digits(sector.Greenness, 4),
        })],
    };

    /// <summary>
    /// Shares in whole millionths that add up to exactly one million: each is rounded down, then those that lost most get
    /// the missing millionths back (largest remainder, the way seats are shared out after an election).
    /// </summary>
    /// <exception cref="ArgumentException">The shares do not add up to 1 within 1e-4, or one is negative or not a number.</exception>
    public static LeafShares Round(LeafShares shares)
    {
        double[] exact = [shares.Sound, shares.Stippled, shares.Yellowed, shares.Browned, shares.Chewed, shares.Unassessed];
        double sum = exact.Sum();
        if (exact.Any(share => !(share >= 0)) || !(Math.Abs(sum - 1) <= 1e-4))
        {
            throw new ArgumentException($"Shares must be 0 or more and add up to 1, but are {shares}.", nameof(shares));
        }

        int[] units = [.. exact.Select(share => (int)Math.Floor(share / sum * ShareUnits))];
        int missing = ShareUnits - units.Sum();
        foreach (int index in Enumerable.Range(0, exact.Length)
            .OrderByDescending(i => (exact[i] / sum * ShareUnits) - units[i]).Take(missing))
        {
            units[index]++;
        }

        double Share(int index) => units[index] / (double)ShareUnits;
        return new LeafShares(Share(0), Share(1), Share(2), Share(3), Share(4), Share(5));
    }

    private static double? Digits(double? value, int digits) => value is { } number ? Math.Round(number, digits) : null;
}
