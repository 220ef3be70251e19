using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>Brown dead tissue: round leaf spots with a dark rim and a narrow yellow halo, and scorch from the margin inwards.</summary>
internal static class DeadTissue
{
    public static void PaintSpots(BladeDamage damage, BladeShape shape, Mat whole, DamageSpec spec, Random random)
    {
        for (int i = 0; i < spec.Spots; i++)
        {
            Point2d centre = Places.Inside(shape, whole, random);
            Blob spot = new(centre, Math.Max(2, random.LogNormal(spec.SpotMm, 0.4) * shape.PixelsPerMm), 0.12, 0.25, random);
            double halo = random.Between(0, 0.32);
            Blob reach = new(centre, spot.Radius * 1.6, 0.35, 0.1, random);
            SpeckPainter.Each(whole.Size(), reach, (x, y, strength) =>
            {
                ref float yellow = ref Pixels.Floats(damage.Yellow, y)[x];
                yellow = Math.Max(yellow, (float)(halo * strength));
            });
            SpeckPainter.Each(whole.Size(), spot, (x, y, strength) => Put(damage, x, y, strength, spot.Reach(x, y)));
        }
    }

    public static void PaintScorch(BladeDamage damage, BladeShape shape, Mat whole, DamageSpec spec, Random random)
    {
        if (spec.ScorchShare <= 0)
        {
            return;
        }

        using Mat field = SmoothNoise.Make(shape.SheetSize, shape.LengthPx / 5, random, 4, 0.5);
        using Mat edge = new();
        Cv2.DistanceTransform(whole, edge, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        Cv2.ScaleAdd(edge, -5 / shape.HalfWidthPx, field, field);
        double cut = FieldCut.AtShare(field, whole, spec.ScorchShare);
        int rows = field.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> values = Pixels.Floats(field, y);
            for (int x = 0; x < values.Length; x++)
            {
                double over = values[x] - cut;
                if (over > -0.15)
                {
                    Put(damage, x, y, Math.Clamp((over / 0.16) + 0.5, 0, 1), 1 - (over / 0.5));
                }
            }
        }
    }

    private static void Put(BladeDamage damage, int x, int y, double strength, double reach)
    {
        ref float brown = ref Pixels.Floats(damage.Brown, y)[x];
        brown = Math.Max(brown, (float)strength);
        double rim = Math.Exp(-Math.Pow((reach - 0.88) / 0.16, 2));
        ref float dark = ref Pixels.Floats(damage.BrownRim, y)[x];
        dark = Math.Max(dark, (float)(rim * strength));
        if (strength >= 0.5)
        {
            Pixels.Bytes(damage.BrownMask, y)[x] = 255;
        }
    }
}
