using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>Paints small marks into the pictures of a blade's damage.</summary>
internal static class SpeckPainter
{
    /// <summary>Paints a feeding mark; where marks overlap the stronger one counts.</summary>
    public static void Paint(BladeDamage damage, Speck speck, Random random)
    {
        Blob blob = new(new Point2d(speck.X, speck.Y), speck.DiameterPx / 2, random.Between(0.25, 0.6), 0.22, random);
        int inside = 0;
        Each(damage.Bleach.Size(), blob, (x, y, strength) =>
        {
            ref float bleach = ref Pixels.Floats(damage.Bleach, y)[x];
            bleach = Math.Max(bleach, (float)(strength * speck.Strength));
            if (strength >= 0.5)
            {
                Pixels.Bytes(damage.SpeckMask, y)[x] = 255;
                inside++;
            }
        });

        // What was drawn, not what was asked for: an uneven contour holds a little more.
        damage.Specks.Add(speck with { DiameterPx = 2 * Math.Sqrt(inside / Math.PI) });
    }

    /// <summary>Paints a grain of dust or a glint.</summary>
    public static void Dab(Mat layer, Point2d centre, double radius, double peak, Random random)
        => Each(layer.Size(), new Blob(centre, radius, 0.5, 0.3, random), (x, y, strength) =>
        {
            ref float value = ref Pixels.Floats(layer, y)[x];
            value = Math.Max(value, (float)(strength * peak));
        });

    /// <summary>Calls for each pixel that a blob reaches.</summary>
    public static void Each(Size size, Blob blob, Action<int, int, double> paint)
    {
        Rect box = blob.Box(size);
        for (int y = box.Top; y < box.Bottom; y++)
        {
            for (int x = box.Left; x < box.Right; x++)
            {
                double strength = blob.At(x, y);
                if (strength > 0)
                {
                    paint(x, y, strength);
                }
            }
        }
    }
}
