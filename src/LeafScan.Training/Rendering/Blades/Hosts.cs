namespace LeafScan.Training.Rendering.Blades;

/// <summary>The kinds of plant that can be rendered.</summary>
public static class Hosts
{
    /// <summary>Burning bush: lance-shaped with a drawn-out tip and fine teeth; green, or red in a cultivar's summer.</summary>
    public static Host BurningBush { get; } = new()
    {
        Name = "burningBush",
        LengthMm = (38, 68),
        WidthRatio = (0.36, 0.46),
        BasePower = 0.85,
        TipPower = 1.05,
        Teeth = 42,
        ToothMm = 0.45,
        VeinPairs = 7,
        Quilting = 0.45,
        Gloss = 0.25,
        VeinContrast = 0.55,
        Colours = [new(41, -20, 27), new(36, -17, 21), new(46, -22, 34), new(33, 14, 12)],
    };

    /// <summary>Boxwood: small, oval, entire, shiny; green, blue-green or gold.</summary>
    public static Host Boxwood { get; } = new()
    {
        Name = "boxwood",
        LengthMm = (17, 30),
        WidthRatio = (0.48, 0.6),
        BasePower = 0.62,
        TipPower = 0.5,
        VeinPairs = 14,
        Quilting = 0.12,
        Gloss = 0.6,
        VeinContrast = 0.3,
        Colours = [new(34, -15, 20), new(40, -18, 27), new(42, -13, 7), new(60, -11, 45)],
    };

    /// <summary>A broad toothed shrub leaf, as of hydrangea or viburnum.</summary>
    public static Host BroadToothed { get; } = new()
    {
        Name = "broadToothed",
        LengthMm = (60, 110),
        WidthRatio = (0.55, 0.72),
        BasePower = 0.6,
        TipPower = 0.95,
        Teeth = 26,
        ToothMm = 1.6,
        VeinPairs = 8,
        Quilting = 0.9,
        Gloss = 0.2,
        VeinContrast = 0.7,
        Colours = [new(44, -21, 30), new(38, -19, 24), new(62, -15, 46)],
    };

    /// <summary>A lobed leaf, as of oak-leaved shrubs.</summary>
    public static Host Lobed { get; } = new()
    {
        Name = "lobed",
        LengthMm = (70, 110),
        WidthRatio = (0.6, 0.72),
        BasePower = 0.75,
        TipPower = 0.55,
        Lobes = 4,
        LobeDepth = 0.42,
        VeinPairs = 4,
        Quilting = 0.5,
        Gloss = 0.3,
        VeinContrast = 0.6,
        Colours = [new(42, -19, 26), new(36, -17, 20), new(30, 16, 8)],
    };

    /// <summary>A compound leaf of five toothed leaflets, as of roses.</summary>
    public static Host Compound { get; } = new()
    {
        Name = "compound",
        LengthMm = (28, 42),
        WidthRatio = (0.55, 0.65),
        BasePower = 0.6,
        TipPower = 0.8,
        Teeth = 20,
        ToothMm = 0.8,
        VeinPairs = 7,
        Quilting = 0.5,
        Gloss = 0.4,
        VeinContrast = 0.5,
        Leaflets = 5,
        Colours = [new(40, -19, 24), new(34, -15, 17), new(34, 10, 12)],
    };

    /// <summary>All of them.</summary>
    public static IReadOnlyList<Host> All { get; } = [BurningBush, Boxwood, BroadToothed, Lobed, Compound];

    /// <summary>The host with a name, or null.</summary>
    public static Host? ByName(string name) => All.FirstOrDefault(h => h.Name == name);
}
