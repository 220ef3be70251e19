using OpenCvSharp;

namespace LeafScan.Leaves.Kinds;

/// <summary>
/// Figures of a whole picture at one small size: colours by zone, how fine and how ordered its structure is, how thick what
/// stands out of it is. All but the zones stay the same when the picture is turned or mirrored.
/// </summary>
internal static class KindFeatures
{
    /// <summary>Side of the square picture in pixels.</summary>
    public const int SidePx = 112;

    /// <summary>How many figures there are.</summary>
    public const int Count = 100;

    /// <summary>Names of the figures, in order.</summary>
    public static IReadOnlyList<string> Names { get; } = NameAll();

    /// <summary>Computes the figures.</summary>
    /// <param name="rgb">Red, green, blue of each pixel, 0..255, row by row.</param>
    public static float[] Of(float[] rgb) => Collect(rgb).Values;

    private static FigureList Collect(float[] rgb)
    {
        FigureList list = new(Count);
        using Mat given = Mat.FromPixelData(SidePx, SidePx, MatType.CV_32FC3, rgb);
        using Mat scaled = new();
        given.ConvertTo(scaled, MatType.CV_32FC3, 1 / 255.0);
        using Mat lab = new();
        Cv2.CvtColor(scaled, lab, ColorConversionCodes.RGB2Lab);
        using KindZones zones = new(lab);
        ColourFigures.Add(list, zones);
        TextureFigures.Add(list, zones);
        ShapeFigures.Add(list, zones);
        return list;
    }

    private static IReadOnlyList<string> NameAll() => Collect(new float[SidePx * SidePx * 3]).Names;
}

/// <summary>Figures with their names, in the order in which they were added.</summary>
internal sealed class FigureList(int count)
{
    private readonly List<string> _names = new(count);
    private readonly List<float> _values = new(count);

    /// <summary>The names so far.</summary>
    public IReadOnlyList<string> Names => _names;

    /// <summary>The values, once all are there; never a value that is not finite.</summary>
    public float[] Values => _values.Count == count
        ? [.. _values]
        : throw new InvalidOperationException($"There are {_values.Count} figures where {count} are wanted.");

    /// <summary>Adds one.</summary>
    public void Add(string name, double value)
    {
        _names.Add(name);
        _values.Add(double.IsFinite(value) ? (float)value : 0);
    }
}
