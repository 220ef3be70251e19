using LeafScan.Photos.Colour;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>The shape of a whole plant.</summary>
public enum CrownForm
{
    /// <summary>Narrow cone to the ground.</summary>
    Cone,

    /// <summary>Column with a blunt top.</summary>
    Column,

    /// <summary>Low and wide.</summary>
    Mound,

    /// <summary>Clipped or natural ball.</summary>
    Ball,

    /// <summary>Narrow at the foot, wide above.</summary>
    Vase,
}

/// <summary>What whole plants of one kind have in common. Sizes are usual garden sizes, drawn by eye and not taken from one flora.</summary>
public sealed record PlantHabit
{
    /// <summary>Name in the scene description.</summary>
    public required string Name { get; init; }

    /// <summary>Shape of the crown.</summary>
    public required CrownForm Form { get; init; }

    /// <summary>Smallest and largest height in m.</summary>
    public required (double Low, double High) HeightM { get; init; }

    /// <summary>Greatest width over height, narrowest and widest.</summary>
    public required (double Low, double High) WidthRatio { get; init; }

    /// <summary>Diameter of a tuft of foliage in m.</summary>
    public required double TuftM { get; init; }

    /// <summary>True for needles and sprays (strokes), false for leaf blades.</summary>
    public required bool Needles { get; init; }

    /// <summary>How lumpy the outline is, 0 clipped to 0.3 wild.</summary>
    public required double Lumps { get; init; }

    /// <summary>Colours of sound foliage that occur: plain first, then cultivars.</summary>
    public required IReadOnlyList<LabColour> Colours { get; init; }

    /// <summary>Colour in fall; null for evergreens.</summary>
    public LabColour? Fall { get; init; }

    /// <summary>Half width at a height (0 ground, 1 top) as a share of the greatest half width.</summary>
    public double RadiusAt(double height) => Form switch
    {
        CrownForm.Cone => Math.Pow(1 - height, 0.8) * Math.Min(1, 0.75 + (4 * height)),
        CrownForm.Column => Math.Min(1, 0.75 + (2 * height)) * Math.Pow(Math.Clamp((1 - height) * 2.6, 0, 1), 0.55),
        CrownForm.Mound => Math.Sqrt(Math.Max(0, 1 - (height * height))) * Math.Min(1, 0.85 + height),
        CrownForm.Ball => Math.Sqrt(Math.Max(0, 1 - Math.Pow((2 * Math.Max(0.08, height)) - 1, 2))),
        _ => Math.Min(1, 0.3 + (1.1 * height)) * Math.Sqrt(Math.Clamp((1 - height) * 3.2, 0, 1)),
    };
}

/// <summary>The plants that can be rendered whole.</summary>
public static class PlantHabits
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<PlantHabit> All { get; } =
    [
        new() { Name = "dwarfAlbertaSpruce", Form = CrownForm.Cone, HeightM = (0.7, 1.8), WidthRatio = (0.45, 0.6), TuftM = 0.05, Needles = true, Lumps = 0.05, Colours = [new(40, -17, 25), new(44, -18, 27)] },
        new() { Name = "arborvitae", Form = CrownForm.Column, HeightM = (1.2, 2.5), WidthRatio = (0.3, 0.45), TuftM = 0.065, Needles = true, Lumps = 0.1, Colours = [new(40, -18, 27), new(55, -11, 40)] },
        new() { Name = "juniper", Form = CrownForm.Mound, HeightM = (0.4, 0.8), WidthRatio = (1.6, 2.3), TuftM = 0.06, Needles = true, Lumps = 0.22, Colours = [new(41, -13, 17), new(48, -7, 2), new(58, -7, 42)] },
        new() { Name = "boxwood", Form = CrownForm.Ball, HeightM = (0.5, 1), WidthRatio = (0.9, 1.2), TuftM = 0.034, Needles = false, Lumps = 0.06, Colours = [new(40, -16, 28)] },
        new() { Name = "burningBush", Form = CrownForm.Vase, HeightM = (1, 2), WidthRatio = (0.85, 1.2), TuftM = 0.085, Needles = false, Lumps = 0.2, Colours = [new(42, -18, 30)], Fall = new(37, 42, 22) },
    ];

    /// <summary>The plant of this name.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static PlantHabit Named(string name)
        => All.FirstOrDefault(one => one.Name == name) ?? throw new ArgumentException($"There is no plant '{name}'. There are: {string.Join(", ", All.Select(one => one.Name))}.", nameof(name));
}
