using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>A twig or whole plant as it was measured, or why it was not. Owns its mask.</summary>
internal sealed class KindMeasurement : IDisposable
{
    /// <summary>The reading; null when refused.</summary>
    public LeafReading? Reading { get; private init; }

    /// <summary><see cref="MaskCode"/> of each pixel of the full-size photo; null when refused.</summary>
    public Mat? Mask { get; private init; }

    /// <summary>Why nothing was measured, and what to do.</summary>
    public (string Reason, string Advice)? Refusal { get; private init; }

    /// <summary>The sound colour it was measured against, in neutral light where the light is known; null when refused.</summary>
    public OwnGreen? Sound { get; private init; }

    /// <summary>Whether the light was known.</summary>
    public bool LightKnown { get; private init; }

    /// <summary>Pixels of the working copy per pixel of the photo.</summary>
    public double WorkScale { get; private init; } = 1;

    /// <summary>Length of all needles in view, pixels of the full-size photo; null where they cannot be seen one by one.</summary>
    public double? NeedleLengthPx { get; private init; }

    /// <summary>Measured; the mask of the working copy is enlarged to the photo's size and taken over by no one.</summary>
    public static KindMeasurement Of(LeafReading reading, Mat codes, Size full, OwnGreen sound, FrameLight light, double? needleLengthPx = null)
    {
        Mat mask = new();
        Cv2.Resize(codes, mask, full, 0, 0, InterpolationFlags.Nearest);
        return new KindMeasurement
        {
            Reading = reading with { AreaPx = Cv2.CountNonZero(mask) },
            Mask = mask,
            WorkScale = codes.Cols / (double)full.Width,
            Sound = sound with { RedToGreen = sound.RedToGreen - light.RedToGreen, BlueToGreen = sound.BlueToGreen - light.BlueToGreen },
            LightKnown = light.Known,
            NeedleLengthPx = needleLengthPx,
        };
    }

    /// <summary>Not measured.</summary>
    public static KindMeasurement None(string reason, string advice) => new() { Refusal = (reason, advice) };

    /// <inheritdoc />
    public void Dispose() => Mask?.Dispose();
}
