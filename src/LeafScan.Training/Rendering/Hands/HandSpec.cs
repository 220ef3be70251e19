using LeafScan.Photos.Colour;

namespace LeafScan.Training.Rendering.Hands;

/// <summary>How a hand holds the leaf.</summary>
public enum HandHold
{
    /// <summary>Thumb over the end of the stalk, one finger below it.</summary>
    Pinch,

    /// <summary>The leaf lies on the fingers.</summary>
    Behind,
}

/// <summary>A hand that holds the first leaf. Skin is background; what a finger covers of a blade is background too.</summary>
public sealed record HandSpec
{
    /// <summary>Seed of its shape and skin.</summary>
    public required int Seed { get; init; }

    /// <summary>How it holds the leaf.</summary>
    public HandHold Hold { get; init; }

    /// <summary>Colour of the skin, CIE Lab.</summary>
    public required LabColour Skin { get; init; }

    /// <summary>Width of a finger in mm, 16 by default.</summary>
    public double FingerMm { get; init; } = 16;

    /// <summary>How far the thumb reaches over the blade, as a share of its length, -0.05..0.12.</summary>
    public double Over { get; init; } = 0.03;
}
