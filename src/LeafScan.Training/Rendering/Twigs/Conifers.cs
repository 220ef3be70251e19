namespace LeafScan.Training.Rendering.Twigs;

/// <summary>The conifers that can be rendered: those on which mites matter most in gardens and nurseries.</summary>
public static class Conifers
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<Conifer> All { get; } =
    [
        new()
        {
            Name = "dwarfAlbertaSpruce", Foliage = FoliageKind.Needle, LeafMm = (6, 10), LeafWidthMm = 0.75, LeavesPerMm = 2.4, LeafAngle = 52,
            SideEveryMm = 7, SideShare = 0.42, SideAngle = 48, Orders = 1, Bloom = 0.1,
            Colours = [new(43, -19, 27), new(48, -20, 30)],
        },
        new()
        {
            Name = "blueSpruce", Foliage = FoliageKind.Needle, LeafMm = (13, 20), LeafWidthMm = 1.2, LeavesPerMm = 1.5, LeafAngle = 58,
            SideEveryMm = 17, SideShare = 0.45, SideAngle = 52, Orders = 1, Bloom = 0.55,
            Colours = [new(50, -9, 1), new(45, -13, 9)],
        },
        new()
        {
            Name = "juniper", Foliage = FoliageKind.Awl, LeafMm = (4, 7), LeafWidthMm = 1.1, LeavesPerMm = 1.7, LeafAngle = 38,
            SideEveryMm = 8, SideShare = 0.45, SideAngle = 42, Orders = 1, Bloom = 0.4,
            Colours = [new(43, -14, 17), new(50, -7, 2), new(64, -7, 46)],
        },
        new()
        {
            Name = "arborvitae", Foliage = FoliageKind.Scale, LeafMm = (2, 3), LeafWidthMm = 1.05, LeavesPerMm = 0.7, LeafAngle = 9,
            SideEveryMm = 4.2, SideShare = 0.58, SideAngle = 40, Orders = 2,
            Colours = [new(43, -20, 30), new(61, -11, 47)],
        },
    ];

    /// <summary>The conifer of this name.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static Conifer Named(string name)
        => All.FirstOrDefault(one => one.Name == name) ?? throw new ArgumentException($"There is no conifer '{name}'. There are: {string.Join(", ", All.Select(one => one.Name))}.", nameof(name));
}
