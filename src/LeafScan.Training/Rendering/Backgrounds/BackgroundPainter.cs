using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Backgrounds;

/// <summary>Paints a background in linear light, float B, G, R.</summary>
internal static class BackgroundPainter
{
    public static Mat Paint(Size photo, BackgroundSpec spec, double pixelsPerMm)
    {
        Random random = Chance.FromSeed(spec.Seed);
        Mat picture = spec.Kind switch
        {
            BackgroundKind.Sheet => Sheet.Paint(photo, random),
            BackgroundKind.Soil => Ground.Soil(photo, pixelsPerMm, random),
            BackgroundKind.Gravel => Ground.Gravel(photo, pixelsPerMm, random),
            BackgroundKind.Mulch => Ground.Mulch(photo, pixelsPerMm, random),
            BackgroundKind.Foliage => Foliage.Close(photo, pixelsPerMm, random),
            _ => throw new ArgumentOutOfRangeException(nameof(spec), spec.Kind, "There is no such background."),
        };
        if (spec.Kind != BackgroundKind.Sheet && spec.BlurPx > 0.3)
        {
            Cv2.GaussianBlur(picture, picture, default, spec.BlurPx);
        }

        return picture;
    }
}
