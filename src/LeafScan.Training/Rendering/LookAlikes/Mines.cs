using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>
/// Trails of leaf miners: one larva eats the inside of the leaf along a winding way and grows, so the trail widens. A dark
/// broken line of droppings runs in the middle. Mites do not feed there: no specks and no yellowing inside.
/// </summary>
internal static class Mines
{
    public static void Paint(BladeMarks marks, BladeDamage damage, BladeShape shape, Mat whole, LookAlikeSpec spec, Random random)
    {
        if (spec.Mines == 0)
        {
            return;
        }

        using Mat room = new();
        Cv2.DistanceTransform(whole, room, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        for (int i = 0; i < spec.Mines; i++)
        {
            Trail(marks, damage, shape, whole, room, spec, random.Split());
        }

        Hidden.Under(marks.Mined, damage);
        Empty(marks.Mined, damage);
    }

    private static void Trail(BladeMarks marks, BladeDamage damage, BladeShape shape, Mat whole, Mat room, LookAlikeSpec spec, Random random)
    {
        double mm = shape.PixelsPerMm;
        double widest = random.LogNormal(spec.MineMm, 0.2) * mm / 2;
        double length = Math.Min(random.Between(22, 60) * mm, 1.4 * shape.LengthPx);
        double strength = random.Between(0.6, 0.95);
        double soft = random.Between(0.2, 0.45);
        Point2d at = Places.Inside(shape, whole, random);
        double course = random.Between(0, 2 * Math.PI);
        double curl = 0;
        for (double gone = 0; gone < length;)
        {
            double part = gone / length;
            double radius = Math.Max(1.2, widest * (0.2 + (0.8 * part)) * (1 + (0.1 * Math.Sin(gone / (1.7 * mm)))));
            double step = 0.45 * radius;
            curl = (0.97 * curl) + (0.05 * random.Normal());
            course += curl * step / (0.9 * mm);
            at = Next(room, at, ref course, step, radius, random);
            Blob piece = new(at, radius * random.Between(0.88, 1.1), soft, 0.25, random);
            bool dead = part < spec.MineBrown;
            SpeckPainter.Each(whole.Size(), piece, (x, y, cover) =>
            {
                ref float mined = ref Pixels.Floats(marks.Mined, y)[x];
                mined = Math.Max(mined, (float)(cover * (dead ? 1 : strength)));
                if (dead)
                {
                    ref float brown = ref Pixels.Floats(damage.Brown, y)[x];
                    brown = Math.Max(brown, (float)cover);
                    if (cover >= 0.5)
                    {
                        Pixels.Bytes(damage.BrownMask, y)[x] = 255;
                    }
                }
            });
            if (random.Hit(0.55))
            {
                Point2d side = new(at.X + (0.15 * radius * random.Normal()), at.Y + (0.15 * radius * random.Normal()));
                SpeckPainter.Dab(marks.Dark, side, Math.Max(0.8, 0.17 * radius), random.Between(0.25, 0.48), random);
            }

            gone += step;
        }
    }

    // Turns away from the margin: the way with the most room of a few is taken when the straight one leads out.
    private static Point2d Next(Mat room, Point2d at, ref double course, double step, double radius, Random random)
    {
        double best = course;
        double most = double.MinValue;
        for (int tries = 0; tries < 7; tries++)
        {
            double way = tries == 0 ? course : course + random.Between(-1.5, 1.5);
            double free = At(room, at.X + (3 * radius * Math.Cos(way)), at.Y + (3 * radius * Math.Sin(way)));
            if (free > 1.4 * radius)
            {
                best = way;
                break;
            }

            if (free > most)
            {
                (best, most) = (way, free);
            }
        }

        course = best;
        return new Point2d(at.X + (step * Math.Cos(course)), at.Y + (step * Math.Sin(course)));
    }

    private static double At(Mat room, double x, double y)
        => x < 0 || y < 0 || x >= room.Cols || y >= room.Rows ? -1 : Pixels.Floats(room, (int)y)[(int)x];

    private static void Empty(Mat mined, BladeDamage damage)
    {
        int rows = mined.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> gone = Pixels.Floats(mined, y);
            Span<float> bleach = Pixels.Floats(damage.Bleach, y);
            Span<float> yellow = Pixels.Floats(damage.Yellow, y);
            for (int x = 0; x < gone.Length; x++)
            {
                bleach[x] *= 1 - Math.Min(1, 1.6f * gone[x]);
                yellow[x] *= 1 - Math.Min(1, 1.6f * gone[x]);
            }
        }
    }
}
