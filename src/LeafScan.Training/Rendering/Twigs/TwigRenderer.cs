using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>The door of twig rendering: a description in, a photo with exact truth out.</summary>
public static class TwigRenderer
{
    /// <summary>Renders a twig. The same description gives the same bytes.</summary>
    /// <exception cref="ArgumentException">The host is not one of <see cref="Conifers"/>.</exception>
    public static RenderedTwig Render(TwigSpec spec)
    {
        Conifer host = Conifers.Named(spec.Host);
        Size photo = new(spec.WidthPx, spec.HeightPx);
        Random random = new(spec.Seed);
        List<Shoot> shoots = TwigSkeleton.Grow(host, spec.LengthMm, random);
        List<TwigLeaf> leaves = TwigFoliage.Cover(host, shoots, spec.LengthMm, random);
        LeafHarm[] harm = TwigHarm.Spread(leaves, spec.LengthMm, spec.Damage);
        using TwigCanvas canvas = new(photo);
        TwigPainter painter = new(spec, shoots, canvas);
        painter.Draw(leaves, harm);
        Mat codes = TwigTruthMask.Codes(canvas);
        TwigTruth truth = TwigTruthMask.Sum(spec, canvas, codes, painter, leaves, harm);
        using Mat light = Compose(spec, canvas, photo);
        using Mat picture = PhoneCamera.Expose(light, spec.Camera);
        return new RenderedTwig(spec, PhotoFile.Jpeg(picture, spec.Camera), codes, truth);
    }

    private static Mat Compose(TwigSpec spec, TwigCanvas canvas, Size photo)
    {
        Mat light = BackgroundPainter.Paint(photo, spec.Background, spec.PixelsPerMm);
        using Mat own = new();
        using Mat cover8 = new();
        using Mat cover = new();
        Cv2.Resize(canvas.Light, own, photo, 0, 0, InterpolationFlags.Area);
        Cv2.Resize(canvas.Cover, cover8, photo, 0, 0, InterpolationFlags.Area);
        cover8.ConvertTo(cover, MatType.CV_32FC1, 1 / 255.0);
        LeafShadow.Throw(light, cover, new Rect(default, photo), spec.PixelsPerMm, spec.HeightMm, spec.Light);
        using Mat rest = new();
        using Mat rest3 = new();
        cover.ConvertTo(rest, MatType.CV_32FC1, -1, 1);
        Cv2.CvtColor(rest, rest3, ColorConversionCodes.GRAY2BGR);
        Cv2.Multiply(light, rest3, light);
        Cv2.Add(light, own, light);
        RoomLight.Shade(light, spec.Background.Shading, spec.Light);
        return light;
    }
}
