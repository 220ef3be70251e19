using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Support;
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
        using FineCanvas canvas = new(photo);
        TwigPainter painter = new(spec, shoots, canvas);
        painter.Draw(leaves, harm);
        Mat codes = canvas.PhotoCodes();
        TwigTruth truth = TwigTruthMask.Sum(spec, canvas, codes, painter, leaves, harm);
        using Mat light = Compose(spec, canvas, photo);
        using Mat picture = PhoneCamera.Expose(light, spec.Camera);
        return new RenderedTwig(spec, PhotoFile.Jpeg(picture, spec.Camera), codes, truth);
    }

    private static Mat Compose(TwigSpec spec, FineCanvas canvas, Size photo)
    {
        Mat light = BackgroundPainter.Paint(photo, spec.Background, spec.PixelsPerMm);
        canvas.LayOver(light, cover => LeafShadow.Throw(light, cover, new Rect(default, photo), spec.PixelsPerMm, spec.HeightMm, spec.Light));
        RoomLight.Shade(light, spec.Background.Shading, spec.Light);
        return light;
    }
}
