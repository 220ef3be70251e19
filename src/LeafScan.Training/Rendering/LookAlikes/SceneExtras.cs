using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Hands;
using LeafScan.Training.Rendering.Shade;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>
/// Draws look-alikes, shadows and hands for a scene that was drawn without them. It has its own source of chance, so that
/// shape, place, damage, light and camera of the scene stay what they were.
/// </summary>
internal static class SceneExtras
{
    private static readonly Photos.Colour.LabColour[] Skins = [new(73, 8, 13), new(66, 10, 16), new(56, 11, 18), new(43, 10, 16), new(31, 8, 11)];

    public static SceneSpec Add(SceneSpec scene, Difficulty level)
    {
        Random random = Chance.FromSeed(scene.Seed ^ 0x5eed_a11e);
        Random air = random.Split();
        Random held = random.Split();

        PlantTraits plant = PlantTraits.Draw(level, random.Split());
        return scene with
        {
            Leaves = [.. scene.Leaves.Select(leaf => Dress(leaf, plant, level, random.Split()))],
            Shadows = Bands(level, air),
            Light = scene.Light with { Through = level != Difficulty.Easy && air.Hit(0.3) ? air.Between(0.1, 0.6) : 0 },
            Background = scene.Background with { BlurPx = scene.Background.BlurPx + Unfocused(scene, air) },
            Hand = Hold(scene, level, held),
        };
    }

    // A leaf held up or still on its plant: the ground behind is out of focus.
    private static double Unfocused(SceneSpec scene, Random random)
        => random.Hit(0.4) && scene.Background.Kind != BackgroundKind.Sheet ? random.Between(1.5, 9) * scene.WidthPx / 1600 : 0;

    private static LeafSpec Dress(LeafSpec leaf, PlantTraits plant, Difficulty level, Random random)
    {
        int rank = (int)level;
        bool wet = random.Hit(0.1 * rank);
        bool mined = random.Hit(0.04 + (0.03 * rank));
        double mm2 = leaf.LengthPx * leaf.LengthPx * 0.4 / (leaf.PixelsPerMm * leaf.PixelsPerMm);
        bool lace = plant.Cause == SpeckCause.LaceBug && leaf.Damage.Specks > 0;
        bool soiled = lace || random.Hit(0.03);
        LookAlikeSpec alike = plant.Pattern with
        {
            Seed = random.Next(),
            Drops = wet ? (int)Math.Clamp(mm2 * random.Between(0.004, 0.03), 2, 120) : 0,
            DropMm = random.Between(0.5, 1.6),
            Mines = mined ? random.Next(1, 3) : 0,
            MineMm = random.Between(1, 2.2),
            MineBrown = random.Hit(0.3) ? 0 : random.Between(0.1, 0.8),
            Droppings = soiled ? random.Next(15, 160) : 0,
            PaleDots = (int)(plant.Pattern.PaleDots * mm2 / 1000),
        };
        bool none = alike is { Drops: 0, Mines: 0, Droppings: 0, PaleDots: 0, HairBaseGapMm: 0, Marbling: 0 };
        return leaf with
        {
            LookAlikes = none ? null : alike,
            Colour = plant.Tint(leaf.Colour),
            Pillow = plant.Pillow * random.Between(0.6, 1.2),
            Damage = leaf.Damage with
            {
                SpeckSilver = plant.Silver,
                SpeckCause = lace ? SpeckCause.LaceBug : SpeckCause.Mites,
                SpeckMm = lace ? leaf.Damage.SpeckMm * 1.35 : leaf.Damage.SpeckMm,
            },
        };
    }

    private static ShadowBandSpec? Bands(Difficulty level, Random random) => random.Hit(0.15 * (int)level)
        ? new ShadowBandSpec
        {
            Seed = random.Next(),
            Count = random.Next(1, 5),
            WidthMm = random.LogNormal(9, 0.6),
            AngleDegrees = random.Between(0, 180),
            Darkness = level == Difficulty.Hard ? random.Between(0.3, 0.65) : random.Between(0.15, 0.4),
            SoftMm = random.LogNormal(2.5, 0.6),
            Ragged = random.NextDouble(),
        }
        : null;

    private static HandSpec? Hold(SceneSpec scene, Difficulty level, Random random) => scene.Leaves.Count == 1 && random.Hit(0.14 * (int)level)
        ? new HandSpec
        {
            Seed = random.Next(),
            Hold = random.Hit(0.55) ? HandHold.Pinch : HandHold.Behind,
            Skin = random.Pick(Skins).Move(2 * random.Normal(), random.Normal(), random.Normal()),
            FingerMm = random.Between(13, 19),
            Over = random.Between(-0.03, 0.1),
        }
        : null;
}
