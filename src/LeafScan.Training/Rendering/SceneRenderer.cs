using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Hands;
using LeafScan.Training.Rendering.Shade;
using LeafScan.Training.Rendering.Support;
using LeafScan.Training.Rendering.Truth;
using OpenCvSharp;

namespace LeafScan.Training.Rendering;

/// <summary>
/// The door of rendering: a description in, a photo with exact truth out. Light is added up linearly; the camera comes last,
/// and the truth is what was drawn before it blurred anything.
/// </summary>
public static class SceneRenderer
{
    /// <summary>Renders a scene. The same description gives the same bytes.</summary>
    public static RenderedScene Render(SceneSpec spec)
    {
        Size photo = new(spec.WidthPx, spec.HeightPx);
        double mm = spec.Leaves.Count > 0 ? spec.Leaves[0].PixelsPerMm : spec.WidthPx / 80.0;
        using Mat light = BackgroundPainter.Paint(photo, spec.Background, mm);
        RoomLight.Shade(light, spec.Background.Shading, spec.Light);
        HandSpec? hand = spec.Leaves.Count > 0 ? spec.Hand : null;
        if (hand is not null)
        {
            Hand.Below(light, hand, spec.Leaves[0], spec.Light, spec.Background.Shading);
        }

        using TruthMask truth = new(photo);
        for (int i = 0; i < spec.Leaves.Count; i++)
        {
            int leaf = spec.LeafOfBlade.Count > 0 ? spec.LeafOfBlade[i] : i;
            Lay(spec, spec.Leaves[i], leaf, light, truth);
        }

        using Mat? thumb = hand is null ? null : Hand.Above(light, hand, spec.Leaves[0], spec.Light, spec.Background.Shading);
        if (thumb is not null)
        {
            truth.Cover(thumb);
        }

        if (spec.Shadows is { } bands)
        {
            ShadowBands.Fall(light, bands, mm);
        }

        using Mat picture = PhoneCamera.Expose(light, spec.Camera);
        return new RenderedScene(spec, PhotoFile.Jpeg(picture, spec.Camera), truth.Codes.Clone(), truth.Sum());
    }

    private static void Lay(SceneSpec scene, LeafSpec spec, int leaf, Mat light, TruthMask truth)
    {
        using Blade blade = Blade.Grow(spec, scene.Light);

        // A phone some 25 cm away sees the far side of a tilted sheet smaller, by the tangent of the tilt.
        double distance = 250 * spec.PixelsPerMm;
        LeafPose pose = new(blade.Shape, spec, Math.Tan(scene.Camera.TiltX * Math.PI / 180) / distance, Math.Tan(scene.Camera.TiltY * Math.PI / 180) / distance);
        Rect box = pose.Box(light.Size());
        if (box.Width < 4 || box.Height < 4)
        {
            return;
        }

        (Mat mapX, Mat mapY) = pose.Maps(box);
        using Mat x = mapX;
        using Mat y = mapY;
        (Mat own, Mat cover) = Warp.Light(blade.Light, blade.Present, x, y, box.Size);
        using Mat leafLight = own;
        using Mat leafCover = cover;
        LeafShadow.Throw(light, leafCover, box, spec, scene.Light);
        Stalk.Draw(light, pose, blade, spec);
        Over(light, leafLight, leafCover, box, scene);
        truth.Add(leaf, spec.Host, blade, pose, box, x, y);
    }

    private static void Over(Mat light, Mat own, Mat cover, Rect box, SceneSpec scene)
    {
        RoomLight.Shade(own, scene.Background.Shading, scene.Light, box, light.Size());
        for (int y = 0; y < box.Height; y++)
        {
            Span<float> to = Pixels.Floats(light, box.Y + y)[(3 * box.X)..];
            Span<float> from = Pixels.Floats(own, y);
            Span<float> share = Pixels.Floats(cover, y);
            for (int x = 0; x < share.Length; x++)
            {
                float rest = 1 - share[x];
                to[3 * x] = (to[3 * x] * rest) + from[3 * x];
                to[(3 * x) + 1] = (to[(3 * x) + 1] * rest) + from[(3 * x) + 1];
                to[(3 * x) + 2] = (to[(3 * x) + 2] * rest) + from[(3 * x) + 2];
            }
        }
    }
}
