using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>What all leaves of one plant share: their cultivar's pattern and tint, their pest.</summary>
/// <param name="Pattern">Natural marks; its pale dots are those of 1000 mm².</param>
/// <param name="Silver">How silvery specks are.</param>
/// <param name="Cause">What makes the specks.</param>
/// <param name="Pillow">How far blades rise between the side veins.</param>
/// <param name="Bluer">Steps of b* towards blue: wax, and the sky it mirrors.</param>
/// <param name="Lighter">Steps of L* above the host's plain green.</param>
internal sealed record PlantTraits(LookAlikeSpec Pattern, double Silver, SpeckCause Cause, double Pillow, double Bluer, double Lighter)
{
    // Lighter than this a sound green leaf is a gold cultivar's, which has its own colour.
    private const double LightestGreen = 66;

    public static PlantTraits Draw(Difficulty level, Random random)
    {
        double silver = random.Hit(0.3) ? random.Between(0.35, 1) : 0;
        SpeckCause cause = random.Hit(0.1) ? SpeckCause.LaceBug : SpeckCause.Mites;
        double often = level switch { Difficulty.Easy => 0.5, Difficulty.Medium => 1, _ => 1.4 };
        bool dots = random.Hit(0.1 * often);
        bool hairs = random.Hit(0.12 * often);
        bool marbled = random.Hit(0.3 * often);
        LookAlikeSpec pattern = new()
        {
            Seed = 0,
            PaleDots = dots ? (int)random.LogNormal(70, 0.7) : 0,
            PaleDotMm = random.LogNormal(0.35, 0.5),
            HairBaseGapMm = hairs ? random.Between(0.8, 1.8) : 0,
            Marbling = marbled ? random.Between(0.15, 0.7) : 0,
        };
        return new PlantTraits(
            pattern,
            silver,
            cause,
            random.Between(0.15, 0.8),
            random.Hit(0.55) ? random.Between(2, 13) : 0,
            random.Hit(0.5) ? random.Between(3, 17) : 0);
    }

    /// <summary>The plant's own green; red and pale leaves keep their colour.</summary>
    public LabColour Tint(LabColour colour) => colour.A < -8
        ? colour.Move(Math.Clamp(LightestGreen - colour.L, 0, Lighter), 0.25 * Bluer, -Math.Clamp(colour.B - 6, 0, Bluer))
        : colour;
}
