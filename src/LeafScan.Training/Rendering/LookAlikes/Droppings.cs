using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>Dark shiny droppings, in loose groups near the specks where there are any. What they cover is no speck.</summary>
internal static class Droppings
{
    public static void Paint(BladeMarks marks, BladeDamage damage, BladeShape shape, Mat whole, LookAlikeSpec spec, Random random)
    {
        if (spec.Droppings == 0)
        {
            return;
        }

        using Mat own = Pixels.NewFloat(shape.SheetSize);
        double mm = shape.PixelsPerMm;
        Point2d group = default;
        for (int i = 0; i < spec.Droppings; i++)
        {
            if (i == 0 || random.Hit(0.14))
            {
                group = Near(damage, shape, whole, random);
            }

            Point2d at = new(group.X + (2.6 * mm * random.Normal()), group.Y + (2.6 * mm * random.Normal()));
            double radius = Math.Max(1.6, Math.Clamp(random.LogNormal(0.13, 0.3), 0.07, 0.3) * mm);
            if (at.X < 0 || at.Y < 0 || at.X >= whole.Cols || at.Y >= whole.Rows || Pixels.Bytes(whole, (int)at.Y)[(int)at.X] == 0)
            {
                continue;
            }

            SpeckPainter.Dab(own, at, radius, random.Between(0.85, 1), random);
            if (random.Hit(0.7))
            {
                Point2d shine = new(at.X + (0.25 * radius * random.Normal()), at.Y + (0.25 * radius * random.Normal()));
                SpeckPainter.Dab(damage.Glint, shine, Math.Max(0.7, 0.28 * radius), random.Between(0.15, 0.5), random);
            }
        }

        Hidden.Under(own, damage);
        Cv2.Max(marks.Dark, own, marks.Dark);
    }

    private static Point2d Near(BladeDamage damage, BladeShape shape, Mat whole, Random random)
    {
        Point2d anywhere = Places.Inside(shape, whole, random);
        if (damage.Specks.Count == 0)
        {
            return anywhere;
        }

        Speck speck = random.Pick(damage.Specks);
        return new Point2d(speck.X, speck.Y);
    }
}
