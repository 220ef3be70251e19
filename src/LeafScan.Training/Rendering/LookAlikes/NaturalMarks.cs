using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>
/// Pale marks that belong to the plant: islands between the smallest veins that differ, dots of the cultivar, bases of hairs.
/// They lie evenly over the blade, not in colonies beside the veins, and keep much of their green.
/// </summary>
internal static class NaturalMarks
{
    public static void Paint(Mat natural, BladeShape shape, Mat whole, LookAlikeSpec spec, Random random)
    {
        Random marbling = random.Split();
        Random dots = random.Split();
        Random hairs = random.Split();
        if (spec.Marbling > 0)
        {
            Marble(natural, shape, spec.Marbling, marbling);
        }

        double vigour = dots.Between(0.5, 1);
        for (int i = 0; i < spec.PaleDots; i++)
        {
            double radius = Math.Max(1.4, dots.LogNormal(spec.PaleDotMm, 0.4) * shape.PixelsPerMm);
            Add(natural, new Blob(Places.Inside(shape, whole, dots), radius, dots.Between(0.25, 0.6), 0.4, dots), vigour * dots.Between(0.5, 1));
        }

        if (spec.HairBaseGapMm > 0)
        {
            HairBases(natural, shape, spec.HairBaseGapMm * shape.PixelsPerMm, hairs);
        }
    }

    private static void Marble(Mat natural, BladeShape shape, double strength, Random random)
    {
        double mm = shape.PixelsPerMm;
        using Cells islands = Cells.Make(shape.SheetSize, Math.Max(4, random.Between(0.5, 1.1) * mm), random);
        using Mat own = islands.Values(random);
        Cv2.GaussianBlur(own, own, default, Math.Max(0.8, 0.09 * mm));
        own.ConvertTo(own, MatType.CV_32FC1, 0.9, -0.45);
        using Mat where = SmoothNoise.Make(shape.SheetSize, Math.Max(2, 5 * mm), random, 2, 0.5);
        where.ConvertTo(where, MatType.CV_32FC1, 0.35, 0.6);
        Cv2.Max(where, 0.15, where);
        Cv2.Multiply(own, where, own);
        using Mat cloud = SmoothNoise.Make(shape.SheetSize, Math.Max(2, 1.6 * mm), random, 3, 0.6);
        Cv2.ScaleAdd(cloud, 0.13, own, own);
        Cv2.ScaleAdd(own, strength, natural, natural);
    }

    private static void HairBases(Mat natural, BladeShape shape, double gap, Random random)
    {
        double strength = random.Between(0.3, 0.7);
        double radius = Math.Max(1.2, random.Between(0.06, 0.11) * shape.PixelsPerMm);
        for (double y = 0; y < shape.SheetSize.Height; y += gap)
        {
            for (double x = 0; x < shape.SheetSize.Width; x += gap)
            {
                Point2d at = new(x + (gap * random.Between(-0.42, 0.42)), y + (gap * random.Between(-0.42, 0.42)));
                Add(natural, new Blob(at, radius * random.Between(0.7, 1.3), 0.6, 0.2, random), strength * random.Between(0.4, 1));
            }
        }
    }

    private static void Add(Mat natural, Blob mark, double peak)
        => SpeckPainter.Each(natural.Size(), mark, (x, y, strength) =>
        {
            ref float value = ref Pixels.Floats(natural, y)[x];
            value = Math.Max(value, (float)(strength * peak));
        });
}
