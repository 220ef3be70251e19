using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Bench.Repeat;

/// <summary>How a photo is shot again in software. The defaults change nothing.</summary>
public sealed record ShotSpec
{
    /// <summary>Seed of the noise.</summary>
    public int Seed { get; init; }

    /// <summary>Change of exposure in stops: the light is multiplied by 2 to this power. Shots draw -0.5..0.3: what a photo has clipped cannot come back.</summary>
    public double ExposureStops { get; init; }

    /// <summary>Factor on red light, 0.92..1.09 in shots; green is 1.</summary>
    public double Red { get; init; } = 1;

    /// <summary>Factor on blue light, 0.92..1.09 in shots.</summary>
    public double Blue { get; init; } = 1;

    /// <summary>Tilt of the camera against the leaf in degrees, 0..15 in shots.</summary>
    public double TiltDegrees { get; init; }

    /// <summary>Towards which side of the photo it is tilted: degrees from the x axis, 0..360.</summary>
    public double TiltTowardsDegrees { get; init; }

    /// <summary>Distance as a factor on the photo's own, 0.7..1.3 in shots: at 2 the leaf has half as many pixels across.</summary>
    public double Distance { get; init; } = 1;

    /// <summary>Further blur, spread in pixels of the new photo, 0..0.8 in shots.</summary>
    public double BlurPx { get; init; }

    /// <summary>Further noise at mid grey as a share of full scale in linear light, 0.001..0.01 in shots; grows with the root of the light.</summary>
    public double Noise { get; init; }

    /// <summary>JPEG quality, 75..95 in shots.</summary>
    public int JpegQuality { get; init; } = 95;

    /// <summary>Draws a shot within the ranges above, all of them our own choice of what differs between two careful photos of one leaf.</summary>
    public static ShotSpec Choose(Random random) => new()
    {
        Seed = random.Next(),
        ExposureStops = random.Between(-0.5, 0.3),
        Red = Math.Exp(random.Between(-0.083, 0.083)),
        Blue = Math.Exp(random.Between(-0.083, 0.083)),

        // Evenly over the disc of all directions up to 15 degrees: the hand has no liking for dead level.
        TiltDegrees = 15 * Math.Sqrt(random.NextDouble()),
        TiltTowardsDegrees = random.Between(0, 360),
        Distance = Math.Exp(random.Between(Math.Log(0.7), Math.Log(1.3))),
        BlurPx = random.Between(0, 0.8),
        Noise = Math.Clamp(random.LogNormal(0.003, 0.5), 0.001, 0.01),
        JpegQuality = random.Next(75, 96),
    };
}
