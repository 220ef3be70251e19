using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>What the tissue network answered for one leaf, as planes; gone when the run's callback returns. Places are pixels of the patch.</summary>
/// <param name="classes">Raw scores, class by class: background, sound, speck, yellowed, browned, unassessed.</param>
/// <param name="centres">Centre map, 0..1.</param>
/// <param name="diameters">Diameters in pixels.</param>
/// <param name="size">Size of a plane.</param>
/// <param name="part">The part of the patch that the network looked at: all of the leaf, and its planes' upper left corner.</param>
internal readonly struct TissueScores(ReadOnlyMemory<float> classes, ReadOnlyMemory<float> centres, ReadOnlyMemory<float> diameters, Size size, Rect part)
{
    /// <summary>Order of the network's classes, as it was trained.</summary>
    public const int Background = 0, Sound = 1, Speck = 2, Yellowed = 3, Browned = 4, Unassessed = 5, Classes = 6;

    /// <summary>Raw scores, class by class.</summary>
    public ReadOnlySpan<float> ClassScores => classes.Span;

    /// <summary>Centre map.</summary>
    public ReadOnlySpan<float> Centres => centres.Span;

    /// <summary>Diameters.</summary>
    public ReadOnlySpan<float> Diameters => diameters.Span;

    /// <summary>Size of a plane.</summary>
    public readonly Size Size = size;

    /// <summary>The part of the patch that the network looked at.</summary>
    public readonly Rect Part = part;

    private readonly int _plane = size.Width * size.Height;

    /// <summary>Raw scores of one class.</summary>
    public ReadOnlySpan<float> Plane(int which) => classes.Span.Slice(which * _plane, _plane);

    /// <summary>Places of single specks, in pixels of the patch; none from a network that names none.</summary>
    public IReadOnlyList<SpeckPlace> Places { get; init; } = [];

    /// <summary>Where in a plane the answer for a pixel of the patch stands.</summary>
    public int At(int x, int y) => ((y - Part.Y) * Size.Width) + x - Part.X;

    /// <summary>How far a class leads over sound at a pixel.</summary>
    public float Lead(int which, int x, int y)
    {
        int at = At(x, y);
        ReadOnlySpan<float> scores = ClassScores;
        return scores[(which * _plane) + at] - scores[(Sound * _plane) + at];
    }
}
