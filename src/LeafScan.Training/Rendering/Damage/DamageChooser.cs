using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>Draws what is wrong with a leaf.</summary>
internal static class DamageChooser
{
    /// <param name="level">How hard the scene is.</param>
    /// <param name="pixelsPerMm">Scale, so that specks stay wide enough to be seen at all.</param>
    /// <param name="areaMm2">About the area of the leaf.</param>
    /// <param name="random">Source of chance.</param>
    public static DamageSpec Choose(Difficulty level, double pixelsPerMm, double areaMm2, Random random)
    {
        bool stippled = random.Hit(0.68);
        double smallestPx = level switch { Difficulty.Easy => 5, Difficulty.Medium => 3.5, _ => 2.4 };
        double speckMm = Math.Max(smallestPx / pixelsPerMm, random.Between(0.2, 0.45));

        // Cover by specks from a hint to a third of the leaf, small ones more often.
        double cover = stippled ? 0.002 * Math.Pow(110, random.NextDouble()) : 0;
        int specks = (int)Math.Min(6000, 0.6 * cover * areaMm2 / (Math.PI / 4 * speckMm * speckMm));
        bool chewed = random.Hit(0.35);
        return new DamageSpec
        {
            Seed = random.Next(),
            Specks = specks,
            SpeckMm = speckMm,
            SpeckStrength = level switch { Difficulty.Easy => random.Between(0.7, 1), Difficulty.Medium => random.Between(0.5, 1), _ => random.Between(0.35, 0.9) },
            YellowShare = random.Hit(0.3) ? random.Between(0.03, 0.45) : 0,
            YellowDepth = random.Between(0.55, 1),
            Yellow = (YellowKind)random.Next(3),
            Spots = random.Hit(0.25) ? random.Next(1, 14) : 0,
            SpotMm = random.LogNormal(1, 0.3),
            ScorchShare = random.Hit(0.12) ? random.Between(0.02, 0.2) : 0,
            BittenShare = chewed ? 0.01 * Math.Pow(20, random.NextDouble()) : 0,
            Holes = chewed && random.Hit(0.6) ? random.Next(1, 8) : 0,
            HoleMm = random.LogNormal(1.3, 0.35),
            Dust = random.Hit(0.4) ? random.Next(10, level == Difficulty.Hard ? 300 : 80) : 0,
            Glints = level != Difficulty.Easy && random.Hit(level == Difficulty.Hard ? 0.6 : 0.25) ? random.Next(30, 500) : 0,
        };
    }
}
