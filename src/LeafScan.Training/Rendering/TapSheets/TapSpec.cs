using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>How the phone is held for one photo of the sheet.</summary>
public sealed record TapView
{
    /// <summary>Middle of the sheet, in pixels to the right of the photo's middle.</summary>
    public double ShiftXPx { get; init; }

    /// <summary>The same downwards.</summary>
    public double ShiftYPx { get; init; }

    /// <summary>Turn of the sheet in the photo, degrees clockwise.</summary>
    public double TurnDegrees { get; init; }

    /// <summary>Factor on the scale.</summary>
    public double Zoom { get; init; } = 1;

    /// <summary>Loss of scale from the middle to the right edge of the photo, -0.2..0.2.</summary>
    public double LeanX { get; init; }

    /// <summary>The same from the middle to the lower edge.</summary>
    public double LeanY { get; init; }

    /// <summary>Depth of a soft shadow that falls over a side of the sheet, 0..0.6.</summary>
    public double Shadow { get; init; }

    /// <summary>Where the shadow's edge lies: 0 through the middle, 1 at the edge of the photo.</summary>
    public double ShadowPlace { get; init; } = 0.5;

    /// <summary>How far the hand moved while the shutter was open, pixels; 0 for a steady hand.</summary>
    public double ShakePx { get; init; }

    /// <summary>Direction of that move, degrees clockwise from the right.</summary>
    public double ShakeDegrees { get; init; }

    /// <summary>Loss of light outside a patch of sun with hard edges, 0..0.7; 0 for no patch.</summary>
    public double SunPatch { get; init; }

    /// <summary>Middle of that patch, as shares of the photo's sides.</summary>
    public double SunX { get; init; } = 0.5;

    /// <summary>Middle of that patch, as shares of the photo's sides.</summary>
    public double SunY { get; init; } = 0.5;

    /// <summary>The camera; its tilt is ignored.</summary>
    public required CameraSpec Camera { get; init; }
}

/// <summary>Everything that makes two rendered photos of one tap sheet. The same description gives the same bytes.</summary>
public sealed record TapSpec
{
    /// <summary>Name of the files, without ending.</summary>
    public required string Name { get; init; }

    /// <summary>Seed from which the description was drawn.</summary>
    public required int Seed { get; init; }

    /// <summary>easy, medium or hard.</summary>
    public required string Difficulty { get; init; }

    /// <summary>Width of the photos in pixels.</summary>
    public required int WidthPx { get; init; }

    /// <summary>Height of the photos in pixels.</summary>
    public required int HeightPx { get; init; }

    /// <summary>Pixels per mm in the middle of the sheet, before the zoom of a photo.</summary>
    public required double PixelsPerMm { get; init; }

    /// <summary>Seconds between the two photos.</summary>
    public required double SecondsBetween { get; init; }

    /// <summary>Width of the sheet in mm; the background shows around it where the photo reaches farther.</summary>
    public required double SheetWidthMm { get; init; }

    /// <summary>Height of the sheet in mm.</summary>
    public required double SheetHeightMm { get; init; }

    /// <summary>Depth of a fold across the sheet, 0..0.15 as a step of light.</summary>
    public double Fold { get; init; }

    /// <summary>What lies on it.</summary>
    public required IReadOnlyList<TapThing> Things { get; init; }

    /// <summary>What lies under it.</summary>
    public required BackgroundSpec Background { get; init; }

    /// <summary>The light.</summary>
    public required Lighting Light { get; init; }

    /// <summary>The first photo.</summary>
    public required TapView First { get; init; }

    /// <summary>The second photo.</summary>
    public required TapView Second { get; init; }
}
