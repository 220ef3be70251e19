namespace LeafScan.Training.Rendering.Backgrounds;

/// <summary>What lies under or behind the leaves.</summary>
public enum BackgroundKind
{
    /// <summary>A sheet of white or off-white paper.</summary>
    Sheet,

    /// <summary>Soil with crumbs and a few stones.</summary>
    Soil,

    /// <summary>Gravel.</summary>
    Gravel,

    /// <summary>Bark mulch.</summary>
    Mulch,

    /// <summary>Other leaves, out of focus.</summary>
    Foliage,
}

/// <summary>The background of a scene.</summary>
public sealed record BackgroundSpec
{
    /// <summary>Seed of its pattern.</summary>
    public required int Seed { get; init; }

    /// <summary>What it is.</summary>
    public BackgroundKind Kind { get; init; }

    /// <summary>Unevenness of the light over the photo, 0..0.5 from dark to bright side.</summary>
    public double Shading { get; init; } = 0.15;

    /// <summary>Blur of a background that lies behind, in pixels; the sheet ignores it.</summary>
    public double BlurPx { get; init; }
}
