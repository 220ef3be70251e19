using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Demo;

/// <summary>
/// An invented nursery in summer 2026: two walks a month apart past three plants. One was rinsed and stops getting worse, one
/// was left alone and gets worse, one is sound but chewed.
/// </summary>
public static class DemoStory
{
    private const string FirstWalk = "walk-2026-07-02";
    private const string SecondWalk = "walk-2026-08-03";
    private static readonly DateOnly FirstDay = new(2026, 7, 2);
    private static readonly DateOnly SecondDay = new(2026, 8, 3);
    private static readonly TimeSpan Summer = TimeSpan.FromHours(-4);

    /// <summary>The story.</summary>
    public static DemoScenario Scenario { get; } = new(
        "leafscan.demo/1",
        new DemoPlace("Larkmere Nursery", "an invented place; nothing here exists"),
        [new DemoWalk(FirstWalk, FirstDay), new DemoWalk(SecondWalk, SecondDay)],
        [
            new DemoPlant("B03", "Burning bush by the boiler house", "Euonymus alatus", "Stippled in July, rinsed hard twice; the old leaves keep their marks, the new leaves are clean."),
            new DemoPlant("B07", "Burning bush on the gravel path", "Euonymus alatus", "Lightly stippled in July, left alone; much worse in August."),
            new DemoPlant("K12", "Bigleaf hydrangea by the shade tunnel", "Hydrangea macrophylla", "No mites at all; something chews it."),
        ],
        [
            new DemoCare("B03", new DateOnly(2026, 7, 3), "rinse", "Undersides rinsed with a hard spray, early morning"),
            new DemoCare("B03", new DateOnly(2026, 7, 10), "rinse", "Rinsed again"),
            new DemoCare("B07", new DateOnly(2026, 7, 3), "nothing", "Left as it was, to see what comes"),
        ]);

    /// <summary>All photos of the demo, walk by walk.</summary>
    public static IEnumerable<DemoPhoto> Photos()
    {
        foreach (bool later in (bool[])[false, true])
        {
            DemoLeaf[] rinsed =
            [
                new(301, Specks: 400, SpecksLater: 402), new(302, Specks: 460, SpecksLater: 463), new(303, Specks: 430, SpecksLater: 430),
                new(305, Specks: 440, SpecksLater: 443), new(306, Specks: 350, SpecksLater: -1), new(307, Specks: 340, SpecksLater: -1),
                new(304, Specks: -1, SpecksLater: 0, Length: 0.8), new(308, Specks: -1, SpecksLater: 0, Length: 0.84),
            ];
            DemoLeaf[] worse =
            [
                new(701, Specks: 160, SpecksLater: 1500, YellowLater: 0.08), new(702, Specks: 60, SpecksLater: 900),
                new(703, Specks: 240, SpecksLater: 2300, YellowLater: 0.16), new(705, Specks: 110, SpecksLater: 1250, YellowLater: 0.05),
                new(706, Specks: 190, SpecksLater: 1700, YellowLater: 0.1), new(707, Specks: 90, SpecksLater: -1),
                new(704, Specks: -1, SpecksLater: 520, Length: 0.82),
            ];
            DemoLeaf[] chewed =
            [
                new(1201, Bitten: 0.05, Holes: 2, BittenLater: 0.07, HolesLater: 3), new(1202, Bitten: 0.015, BittenLater: 0.11, HolesLater: 2),
                new(1203, Holes: 5, HolesLater: 5), new(1204, Bitten: 0.03, Holes: 1, BittenLater: 0.03, HolesLater: 4),
                new(1205), new(1206, Holes: 2, BittenLater: 0.06, HolesLater: 3),
            ];
            foreach (DemoPhoto photo in Plant("B03", Hosts.BurningBush, rinsed, later).Concat(Plant("B07", Hosts.BurningBush, worse, later)).Concat(Plant("K12", Hosts.BroadToothed, chewed, later)))
            {
                yield return photo;
            }
        }
    }

    private static IEnumerable<DemoPhoto> Plant(string code, Host host, DemoLeaf[] leaves, bool later)
    {
        for (int i = 0; i < leaves.Length; i++)
        {
            DemoLeaf leaf = leaves[i];
            int specks = later ? leaf.SpecksLater : leaf.Specks;
            if (specks >= 0)
            {
                yield return new DemoPhoto(later ? SecondWalk : FirstWalk, code, Scene(code, host, leaf, specks, i, later));
            }
        }
    }

    private static SceneSpec Scene(string code, Host host, DemoLeaf leaf, int specks, int place, bool later)
    {
        // A leaf keeps its seed; how it was photographed that day is drawn anew.
        Random day = Chance.FromSeed((leaf.Seed * 10) + (later ? 1 : 0));
        Random own = Chance.FromSeed(leaf.Seed);
        double mm = own.Between(host.LengthMm.Low + (0.5 * (host.LengthMm.High - host.LengthMm.Low)), host.LengthMm.High) * leaf.Length;
        Photos.Colour.LabColour tone = host.Colours[0].Move(2 * own.Normal(), own.Normal(), 2 * own.Normal());
        double length = (host == Hosts.BurningBush ? 1150 : 1020) * leaf.Length * day.Between(0.94, 1.03);
        int minutes = (code[0] * 7 % 40) + (place * 2) + (code == "B07" ? 20 : 0);
        return new SceneSpec
        {
            Name = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"leaf-{place + 1}"),
            Seed = leaf.Seed,
            Difficulty = "demo",
            WidthPx = 1600,
            HeightPx = 1200,
            Background = new BackgroundSpec { Seed = day.Next(), Kind = BackgroundKind.Sheet, Shading = day.Between(0.06, 0.2) },
            Light = new Lighting
            {
                AzimuthDegrees = day.Between(200, 290),
                HeightDegrees = day.Between(45, 60),
                Hardness = day.Between(0.2, 0.4),
                Shine = day.Between(0.15, 0.45),
                ShineSlope = day.Between(0.15, 0.4),
            },
            Camera = new CameraSpec
            {
                Seed = day.Next(),
                Exposure = day.Between(0.92, 1.05),
                Red = 1 + (0.02 * day.Normal()),
                Blue = 1 + (0.02 * day.Normal()),
                BlurPx = day.Between(0.5, 0.75),
                Noise = 0.003,
                Sharpening = day.Between(0.25, 0.5),
                Contrast = 0.15,
                TiltX = 3 * day.Normal(),
                TiltY = 3 * day.Normal(),
                JpegQuality = 85,
                Taken = new DateTimeOffset((later ? SecondDay : FirstDay).ToDateTime(new TimeOnly(9, 0)), Summer).AddMinutes(minutes).AddSeconds(day.Next(60)),
            },
            Leaves =
            [
                new LeafSpec
                {
                    Seed = leaf.Seed, Host = host.Name, LengthPx = length, PixelsPerMm = length / mm, Colour = tone,
                    CentreX = 800 + day.Between(-60, 60), CentreY = 600 + day.Between(-40, 40), AngleDegrees = day.Between(-16, 16) + (day.Hit(0.5) ? 180 : 0),
                    Bend = 0.025 * own.Normal(), Fold = own.Between(0.06, 0.16), Waves = own.Between(0.06, 0.12), Mottle = own.Between(0.2, 0.45),
                    StalkMm = own.Between(2.5, 5), HeightMm = day.Between(0.8, 2),
                    Damage = new DamageSpec
                    {
                        Seed = leaf.Seed + 50_000, Specks = specks, SpeckMm = 0.33, SpeckStrength = 0.85,
                        YellowShare = later ? leaf.YellowLater : 0, YellowDepth = 0.7,
                        BittenShare = later ? leaf.BittenLater : leaf.Bitten, Holes = later ? leaf.HolesLater : leaf.Holes, HoleMm = 2.4,
                        Dust = day.Next(25),
                    },
                },
            ],
        };
    }
}
