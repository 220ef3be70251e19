using LeafScan.Frame.Sheets;

namespace LeafScan.Training.Rendering.Sheets;

/// <summary>A photo of a scale sheet with things on it: everything that is drawn, so that scale, places and colours are known.</summary>
public sealed record SheetSpec
{
    /// <summary>Seed of noise and chance.</summary>
    public required int Seed { get; init; }

    /// <summary>The sheet.</summary>
    public required ScaleSheet Sheet { get; init; }

    /// <summary>Tilt of the sheet against the camera, 0 to 40 degrees.</summary>
    public double TiltDegrees { get; init; }

    /// <summary>Direction of the axis of tilt in the sheet.</summary>
    public double AxisDegrees { get; init; }

    /// <summary>Turn in the picture.</summary>
    public double TurnDegrees { get; init; }

    /// <summary>Corners that something covers, 0 to 3 each; none by default.</summary>
    public IReadOnlyList<int> CoveredCorners { get; init; } = [];

    /// <summary>Whether the paper carries the sheet's print; true by default. False for plain paper of that size.</summary>
    public bool Printed { get; init; } = true;

    /// <summary>Long side of the photo in pixels.</summary>
    public int LongSidePx { get; init; } = 3000;

    /// <summary>Colour of the light.</summary>
    public LightColour Light { get; init; } = LightColour.Noon;

    /// <summary>How much darker the far side of the sheet is, 0..0.6.</summary>
    public double Shading { get; init; } = 0.3;

    /// <summary>Blur of lens and hand in pixels.</summary>
    public double BlurPx { get; init; } = 0.7;

    /// <summary>Noise in levels.</summary>
    public double Noise { get; init; } = 3;

    /// <summary>Seed of a rendered leaf (easy scene) that lies on it; null for none.</summary>
    public int? LeafSeed { get; init; }

    /// <summary>Length of that leaf in mm.</summary>
    public double LeafLengthMm { get; init; } = 90;

    /// <summary>Code of a plant tag that lies in the lower left of the field; null for none.</summary>
    public string? TagCode { get; init; }

    /// <summary>Whether the 24 known colours lie on it.</summary>
    public bool Chips { get; init; }
}

/// <summary>A colour of light as gains of the linear channels, the strongest 1.</summary>
/// <param name="Name">What it is like.</param>
/// <param name="Red">Gain of red.</param>
/// <param name="Green">Gain of green.</param>
/// <param name="Blue">Gain of blue.</param>
/// <remarks>Chosen by hand to look like photos taken with a phone's white balance off by much (values from memory).</remarks>
public sealed record LightColour(string Name, double Red, double Green, double Blue)
{
    /// <summary>Noon sun.</summary>
    public static readonly LightColour Noon = new("noon", 1, 0.98, 0.94);

    /// <summary>Light bulb.</summary>
    public static readonly LightColour Tungsten = new("tungsten", 1, 0.72, 0.38);

    /// <summary>Open shade under a blue sky.</summary>
    public static readonly LightColour Shade = new("shade", 0.74, 0.88, 1);

    /// <summary>Greenish tubes.</summary>
    public static readonly LightColour Tubes = new("tubes", 0.82, 1, 0.76);

    /// <summary>Low evening sun.</summary>
    public static readonly LightColour Evening = new("evening", 1, 0.82, 0.6);

    /// <summary>All five.</summary>
    public static IReadOnlyList<LightColour> All { get; } = [Noon, Tungsten, Shade, Tubes, Evening];
}
