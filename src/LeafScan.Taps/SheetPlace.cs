using LeafScan.Frame;
using LeafScan.Frame.Sheets;
using OpenCvSharp;

namespace LeafScan.Taps;

/// <summary>Where a sheet of known size lies in one photo: handed in by whoever reads the marks printed on it.</summary>
public sealed class SheetPlace
{
    private readonly PlaneMap _toMm;

    /// <summary>From the map of photo pixels to mm on the sheet.</summary>
    /// <param name="toMm">The map.</param>
    public SheetPlace(PlaneMap toMm) => _toMm = toMm;

    /// <summary>A photo taken straight from above.</summary>
    /// <param name="pixelsPerMm">Pixels per mm, more than 0.</param>
    public static SheetPlace FromAbove(double pixelsPerMm)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(pixelsPerMm);
        return new SheetPlace(PlaneMap.Turn(0, 1 / pixelsPerMm)) { ScaleOnly = true };
    }

    /// <summary>The part of the sheet without print, in its mm: only what lies there counts; null (default) when all of it is blank.</summary>
    public SheetArea? Field { get; init; }

    /// <summary>Whether a place of the photo lies in <see cref="Field"/>.</summary>
    internal bool IsInField(double x, double y)
    {
        if (Field is not { } field)
        {
            return true;
        }

        Point2d mm = _toMm.Map(x, y);
        return mm.X > field.LeftMm && mm.Y > field.TopMm && mm.X < field.LeftMm + field.WidthMm && mm.Y < field.TopMm + field.HeightMm;
    }

    /// <summary>True when only the scale is known and not where the sheet lies.</summary>
    internal bool ScaleOnly { get; private init; }

    internal PlaneMap ToMm => _toMm;

    /// <summary>Pixels per mm at a place of the photo.</summary>
    /// <param name="x">Pixels to the right.</param>
    /// <param name="y">Pixels down.</param>
    public double PixelsPerMmAt(double x, double y) => 1 / _toMm.ScaleAt(x, y);
}
