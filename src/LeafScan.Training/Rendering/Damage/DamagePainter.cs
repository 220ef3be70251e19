using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>Puts all damage of a description onto a blade.</summary>
internal static class DamagePainter
{
    public static BladeDamage Paint(BladeShape shape, Venation veins, Mat whole, DamageSpec spec)
    {
        // Each kind has its own source, so that more of one kind does not move the others.
        Random root = Chance.FromSeed(spec.Seed);
        Random feeding = root.Split();
        Random yellowing = root.Split();
        Random spots = root.Split();
        Random scorch = root.Split();
        Random chewing = root.Split();
        Random marks = root.Split();
        BladeDamage damage = new(shape.SheetSize);
        Yellowing.Paint(damage, shape, veins, whole, spec, yellowing);
        DeadTissue.PaintSpots(damage, shape, whole, spec, spots);
        DeadTissue.PaintScorch(damage, shape, whole, spec, scorch);
        Chewer.Bite(damage, shape, whole, spec, chewing);
        Random contours = feeding.Split();
        foreach (Speck speck in FeedingProcess.Feed(shape, veins, whole, spec, feeding).Take(spec.Specks))
        {
            SpeckPainter.Paint(damage, speck, contours);
        }

        for (int i = 0; i < spec.Dust; i++)
        {
            double radius = random(0.05, 0.16);
            SpeckPainter.Dab(damage.Dust, Places.Inside(shape, whole, marks), Math.Max(0.8, radius), marks.Between(0.3, 0.9), marks);
        }

        for (int i = 0; i < spec.Glints; i++)
        {
            SpeckPainter.Dab(damage.Glint, Places.Inside(shape, whole, marks), marks.Between(1, 2.2), marks.Between(0.3, 1.1), marks);
        }

        return damage;

        double random(double low, double high) => shape.PixelsPerMm * marks.Between(low, high);
    }
}
