namespace LeafScan.Training.Rendering.Camera;

/// <summary>What the camera does to the light. Ranges are what phones were seen to do, chosen by eye.</summary>
public sealed record CameraSpec
{
    /// <summary>Seed of the noise.</summary>
    public required int Seed { get; init; }

    /// <summary>Exposure: factor on the light, 0.7..1.4.</summary>
    public double Exposure { get; init; } = 1;

    /// <summary>Error of the white balance: factor on red, 0.9..1.1; green is 1.</summary>
    public double Red { get; init; } = 1;

    /// <summary>Error of the white balance: factor on blue, 0.9..1.1.</summary>
    public double Blue { get; init; } = 1;

    /// <summary>Blur of lens and hand, spread in pixels, 0.4..2.5.</summary>
    public double BlurPx { get; init; } = 0.7;

    /// <summary>Noise at mid grey as a share of full scale in linear light, 0.002..0.03; grows with the root of the light.</summary>
    public double Noise { get; init; } = 0.006;

    /// <summary>Strength of sharpening, 0..1.2.</summary>
    public double Sharpening { get; init; } = 0.4;

    /// <summary>Contrast added by the tone curve, 0..0.4.</summary>
    public double Contrast { get; init; } = 0.15;

    /// <summary>Factor on colourfulness, 0.9..1.25.</summary>
    public double Saturation { get; init; } = 1.08;

    /// <summary>Darkening of the corners, 0..0.3.</summary>
    public double Vignette { get; init; } = 0.08;

    /// <summary>Tilt of the camera to the right, degrees, -20..20.</summary>
    public double TiltX { get; init; }

    /// <summary>Tilt downwards, degrees, -20..20.</summary>
    public double TiltY { get; init; }

    /// <summary>JPEG quality, 60..95.</summary>
    public int JpegQuality { get; init; } = 85;

    /// <summary>When the photo was taken; null writes no date.</summary>
    public DateTimeOffset? Taken { get; init; }
}
