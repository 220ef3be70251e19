using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>What the tissue network answered for one leaf, as planes; gone when the run's callback returns.</summary>
/// <param name="classes">Raw scores, class by class: background, sound, speck, yellowed, browned, unassessed.</param>
/// <param name="centres">Centre map, 0..1.</param>
/// <param name="diameters">Diameters in pixels.</param>
/// <param name="size">Size of a plane, at least that of the patch.</param>
internal readonly ref struct TissueScores(ReadOnlySpan<float> classes, ReadOnlySpan<float> centres, ReadOnlySpan<float> diameters, Size size)
{
    /// <summary>Order of the network's classes, as it was trained.</summary>
    public const int Background = 0, Sound = 1, Speck = 2, Yellowed = 3, Browned = 4, Unassessed = 5, Classes = 6;

    /// <summary>Raw scores, class by class.</summary>
    public readonly ReadOnlySpan<float> ClassScores = classes;

    /// <summary>Centre map.</summary>
    public readonly ReadOnlySpan<float> Centres = centres;

    /// <summary>Diameters.</summary>
    public readonly ReadOnlySpan<float> Diameters = diameters;

    /// <summary>Size of a plane.</summary>
    public readonly Size Size = size;

    private readonly int _plane = size.Width * size.Height;

    /// <summary>How far a class leads over sound at a pixel.</summary>
    public float Lead(int which, int x, int y)
    {
        int at = (y * Size.Width) + x;
        return ClassScores[(which * _plane) + at] - ClassScores[(Sound * _plane) + at];
    }
}
