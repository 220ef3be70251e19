using LeafScan.Frame;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>From mm on the sheet to pixels of a photo.</summary>
internal static class TapGeometry
{
    /// <summary>The map of one photo.</summary>
    public static PlaneMap ToPhoto(TapSpec spec, TapView view)
        => PlaneMap.Shift((spec.WidthPx / 2.0) - 0.5 + view.ShiftXPx, (spec.HeightPx / 2.0) - 0.5 + view.ShiftYPx)
            .After(PlaneMap.Lean(2 * view.LeanX / spec.WidthPx, 2 * view.LeanY / spec.HeightPx))
            .After(PlaneMap.Turn(view.TurnDegrees, spec.PixelsPerMm * view.Zoom));

    /// <summary>From pixels of the first photo to pixels of the second, for what did not move.</summary>
    public static PlaneMap FirstToSecond(TapSpec spec) => ToPhoto(spec, spec.Second).After(ToPhoto(spec, spec.First).Back());

    /// <summary>Place, direction (radians) and pixels per mm of a thing in a photo.</summary>
    public static (Point2d At, double Angle, double PixelsPerMm) Place(TapThing thing, PlaneMap map, bool second)
    {
        double x = thing.X + (second ? thing.MoveX : 0);
        double y = thing.Y + (second ? thing.MoveY : 0);
        double angle = (thing.AngleDegrees + (second ? thing.TurnDegrees : 0)) * Math.PI / 180;
        Point2d at = map.Map(x, y);
        Point2d ahead = map.Map(x + (0.1 * Math.Cos(angle)), y + (0.1 * Math.Sin(angle)));
        Point2d step = ahead - at;
        return (at, Math.Atan2(step.Y, step.X), 10 * Math.Sqrt((step.X * step.X) + (step.Y * step.Y)));
    }
}
