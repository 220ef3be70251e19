using LeafScan.Frame;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>Two rendered photos of one tap sheet; the truth is the description itself.</summary>
/// <param name="Spec">The description they were made from.</param>
/// <param name="First">The first photo: JPEG with EXIF, no position.</param>
/// <param name="Second">The photo taken <see cref="TapSpec.SecondsBetween"/> later.</param>
public sealed record RenderedTap(TapSpec Spec, ReadOnlyMemory<byte> First, ReadOnlyMemory<byte> Second);

/// <summary>The door of tap-sheet rendering: a description in, two photos out.</summary>
public static class TapRenderer
{
    /// <summary>Renders both photos. The same description gives the same bytes.</summary>
    public static RenderedTap Render(TapSpec spec)
    {
        using TapPaper paper = new(spec);
        return new RenderedTap(spec, Photo(spec, spec.First, paper, false), Photo(spec, spec.Second, paper, true));
    }

    private static byte[] Photo(TapSpec spec, TapView view, TapPaper paper, bool second)
    {
        PlaneMap map = TapGeometry.ToPhoto(spec, view);
        using Mat light = paper.Seen(map, new Size(spec.WidthPx, spec.HeightPx));
        foreach (TapThing thing in spec.Things)
        {
            ThingPainter.Draw(light, thing, TapGeometry.Place(thing, map, second), spec.Light);
        }

        RoomLight.Shade(light, spec.Background.Shading, spec.Light);
        Shadow(light, view, spec.Light);
        TapTroubles.Sun(light, view);
        TapTroubles.Shake(light, view);
        using Mat picture = PhoneCamera.Expose(light, view.Camera);
        return PhotoFile.Jpeg(picture, view.Camera);
    }

    // Of the phone or a head, from the side of the light: soft, and not at the same place in both photos.
    private static void Shadow(Mat light, TapView view, Lighting lighting)
    {
        if (view.Shadow <= 0)
        {
            return;
        }

        double azimuth = lighting.AzimuthDegrees * Math.PI / 180;
        double cos = Math.Cos(azimuth);
        double sin = Math.Sin(azimuth);
        double soft = light.Cols * (0.01 + (0.05 * (1 - lighting.Hardness)));
        double edge = view.ShadowPlace * light.Rows / 2;
        int rows = light.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = Pixels.Floats(light, y);
            for (int x = 0; x < row.Length / 3; x++)
            {
                double along = ((x - (light.Cols / 2.0)) * cos) + ((y - (light.Rows / 2.0)) * sin);
                float rest = (float)(1 - (view.Shadow / (1 + Math.Exp((edge - along) / soft))));
                row[3 * x] *= rest;
                row[(3 * x) + 1] *= rest;
                row[(3 * x) + 2] *= rest;
            }
        }
    }
}
