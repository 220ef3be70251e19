using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>Diffuse yellowing: a smooth field, cut where the wanted share of the blade lies above.</summary>
internal static class Yellowing
{
    public static void Paint(BladeDamage damage, BladeShape shape, Venation veins, Mat whole, DamageSpec spec, Random random)
    {
        using Mat field = SmoothNoise.Make(shape.SheetSize, shape.LengthPx / 4.5, random, 3, 0.4);
        double mm = shape.PixelsPerMm;
        if (spec.YellowShare <= 0)
        {
            return;
        }

        if (spec.Yellow == YellowKind.Interveinal)
        {
            using Mat near = new();
            using Mat main = new();
            Cv2.GaussianBlur(veins.Main, near, default, 1.3 * mm);
            Cv2.ScaleAdd(near, -9, field, field);
        }
        else if (spec.Yellow == YellowKind.Margin)
        {
            using Mat edge = new();
            Cv2.DistanceTransform(whole, edge, DistanceTypes.L2, DistanceTransformMasks.Mask3);
            Cv2.ScaleAdd(edge, -5 / shape.HalfWidthPx, field, field);
        }

        Cv2.GaussianBlur(field, field, default, 0.5 * mm);
        double cut = FieldCut.AtShare(field, whole, spec.YellowShare);
        double soft = spec.Yellow == YellowKind.Interveinal ? 0.9 : 0.75;
        int rows = field.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> values = Pixels.Floats(field, y);
            Span<float> yellow = Pixels.Floats(damage.Yellow, y);
            Span<byte> mask = Pixels.Bytes(damage.YellowMask, y);
            for (int x = 0; x < values.Length; x++)
            {
                double t = Math.Clamp(((values[x] - cut) / (2 * soft)) + 0.5, 0, 1);
                yellow[x] = (float)(spec.YellowDepth * t * t * (3 - (2 * t)));
                mask[x] = t >= 0.5 ? (byte)255 : (byte)0;
            }
        }
    }
}
