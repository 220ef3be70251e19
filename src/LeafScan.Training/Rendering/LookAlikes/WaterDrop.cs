using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>One drop of water on a blade, in sheet pixels.</summary>
/// <param name="Shape">Its contour.</param>
/// <param name="Lens">
/// How much of the way to the middle the tissue below seems moved, 0..0.4. It is 0 over damage: there the lens would show
/// specks where the truth has none.
/// </param>
/// <param name="Height">How far it stands up, 0 flat film to 1 bead.</param>
internal readonly record struct WaterDrop(Blob Shape, double Lens, double Height)
{
    /// <summary>Lets drops fall; a drop takes a place only where none lies yet.</summary>
    public static IEnumerable<WaterDrop> Fall(BladeShape shape, Mat whole, BladeDamage damage, LookAlikeSpec spec, Random random)
    {
        List<Blob> lying = [];
        for (int i = 0; i < spec.Drops; i++)
        {
            double radius = Math.Max(3, Math.Clamp(random.LogNormal(spec.DropMm, 0.5), 0.25, 4.5) * shape.PixelsPerMm);
            Blob drop = new(Places.Inside(shape, whole, random), radius, Math.Min(0.3, 1.6 / radius), 0.16, random);
            double lens = random.Between(0.2, 0.4);
            double height = random.Between(0.45, 1);
            if (lying.Exists(other => Apart(other, drop) < 1.1 * (other.Radius + drop.Radius)) || !Within(whole, drop))
            {
                continue;
            }

            lying.Add(drop);
            yield return new WaterDrop(drop, Touches(damage, drop) ? 0 : lens, height);
        }
    }

    private static double Apart(Blob one, Blob other) => Math.Sqrt(Math.Pow(one.Centre.X - other.Centre.X, 2) + Math.Pow(one.Centre.Y - other.Centre.Y, 2));

    private static bool Within(Mat whole, Blob drop)
    {
        for (int i = 0; i < 12; i++)
        {
            int x = (int)(drop.Centre.X + (1.2 * drop.Radius * Math.Cos(i * Math.PI / 6)));
            int y = (int)(drop.Centre.Y + (1.2 * drop.Radius * Math.Sin(i * Math.PI / 6)));
            if (x < 0 || y < 0 || x >= whole.Cols || y >= whole.Rows || Pixels.Bytes(whole, y)[x] == 0)
            {
                return false;
            }
        }

        return true;
    }

    private static bool Touches(BladeDamage damage, Blob drop)
    {
        Rect box = drop.Box(damage.SpeckMask.Size());
        foreach (Mat mask in (Mat[])[damage.SpeckMask, damage.YellowMask, damage.BrownMask, damage.Missing])
        {
            using Mat below = new(mask, box);
            if (Cv2.CountNonZero(below) > 0)
            {
                return true;
            }
        }

        return false;
    }
}
