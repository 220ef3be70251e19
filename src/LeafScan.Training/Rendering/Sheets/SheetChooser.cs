using LeafScan.Frame.Sheets;

namespace LeafScan.Training.Rendering.Sheets;

/// <summary>Draws descriptions of sheet photos by chance.</summary>
public static class SheetChooser
{
    /// <summary>Draws one: a leaf on a sheet, a tag beside it in every other photo.</summary>
    /// <param name="seed">The same seed and level give the same photo.</param>
    /// <param name="level">Easy: nearly from above in noon light. Medium: tilted up to 20 degrees, any light. Hard: up to 35 degrees, more shading, blur and noise, one corner covered in every third.</param>
    /// <param name="longSidePx">Long side of the photo.</param>
    public static SheetSpec Choose(int seed, Difficulty level, int longSidePx)
    {
        Random random = new(seed);
        double tilt = level switch { Difficulty.Easy => 6, Difficulty.Medium => 20, _ => 35 };
        return new SheetSpec
        {
            Seed = seed,
            Sheet = ScaleSheet.Of(PaperSize.All[random.Next(PaperSize.All.Count)], SheetSide.Leaf),
            TiltDegrees = random.NextDouble() * tilt,
            AxisDegrees = random.NextDouble() * 360,
            TurnDegrees = (random.NextDouble() * 30) - 15,
            Shading = level == Difficulty.Hard ? random.NextDouble() * 0.55 : random.NextDouble() * 0.3,
            BlurPx = level == Difficulty.Hard ? 0.5 + (random.NextDouble() * 1.5) : 0.5,
            Noise = level == Difficulty.Hard ? 2 + (random.NextDouble() * 5) : 2,
            Light = level == Difficulty.Easy ? LightColour.Noon : LightColour.All[random.Next(LightColour.All.Count)],
            CoveredCorners = level == Difficulty.Hard && random.Next(3) == 0 ? [random.Next(4)] : [],
            LongSidePx = longSidePx,
            LeafSeed = random.Next(800_000),
            LeafLengthMm = 60 + (random.NextDouble() * 60),
            TagCode = random.Next(2) == 0 ? $"P{random.Next(1, 100):00}" : null,
        };
    }
}
