using LeafScan.Frame.Sheets;
using LeafScan.Taps.Lining;
using OpenCvSharp;

namespace LeafScan.Taps;

/// <summary>Where a sheet of known size lies in one photo: handed in by whoever reads the marks printed on it.</summary>
public sealed class SheetPlace
{
    private readonly PlaneMap _toMm;

    /// <summary>From the map of photo pixels to mm on the sheet.</summary>
    /// <param name="toMm">Nine numbers of the homography, row by row.</param>
    /// <exception cref="ArgumentException">There are not nine numbers.</exception>
    public SheetPlace(IReadOnlyList<double> toMm)
    {
        if (toMm.Count != 9)
        {
            throw new ArgumentException($"A homography has nine numbers, not {toMm.Count}.", nameof(toMm));
        }

        _toMm = new PlaneMap([.. toMm]);
    }

    /// <summary>A photo taken straight from above.</summary>
    /// <param name="pixelsPerMm">Pixels per mm, more than 0.</param>
    public static SheetPlace FromAbove(double pixelsPerMm)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(pixelsPerMm);
        return new SheetPlace([1 / pixelsPerMm, 0, 0, 0, 1 / pixelsPerMm, 0, 0, 0, 1]) { ScaleOnly = true };
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
    public double PixelsPerMmAt(double x, double y)
    {
        Point2d at = _toMm.Map(x, y);
        Point2d right = _toMm.Map(x + 1, y) - at;
        Point2d down = _toMm.Map(x, y + 1) - at;
        return 1 / Math.Sqrt(Math.Abs((right.X * down.Y) - (right.Y * down.X)));
    }
}
