using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>
/// How drops look on a lit blade: the tissue below enlarged and a little darker, the side towards the light dark, light
/// gathered on the far side, the sky mirrored along the rim, the sun as one hard point, a narrow shadow beside.
/// </summary>
internal static class DropLight
{
    public static void Lay(Mat light, IReadOnlyList<WaterDrop> drops, LeafSpec spec, Lighting lighting)
    {
        double azimuth = (lighting.AzimuthDegrees - spec.AngleDegrees) * Math.PI / 180;
        Point2d to = new(Math.Cos(azimuth), Math.Sin(azimuth));
        foreach (WaterDrop drop in drops)
        {
            One(light, drop, to, lighting);
        }
    }

    private static void One(Mat light, WaterDrop drop, Point2d to, Lighting lighting)
    {
        Point2d centre = drop.Shape.Centre;
        double radius = drop.Shape.Radius;
        Rect box = Around(centre, 1.75 * radius, light.Size());
        using Mat view = new(light, box);
        using Mat below = view.Clone();
        float hard = (float)lighting.Hardness;
        double far = 0.3 * drop.Height;
        for (int y = 0; y < box.Height; y++)
        {
            Span<float> row = Pixels.Floats(view, y);
            for (int x = 0; x < box.Width; x++)
            {
                double px = x + box.X - centre.X;
                double py = y + box.Y - centre.Y;
                double reach = drop.Shape.Reach(px + centre.X, py + centre.Y);
                float cover = (float)Cover(drop, reach);
                Span<float> pixel = row.Slice(3 * x, 3);

                // Its shadow lies beside it, away from the light.
                double beside = drop.Shape.Reach(px + centre.X + (far * radius * to.X), py + centre.Y + (far * radius * to.Y));
                float shade = (float)((0.12 + (0.35 * hard)) * Math.Clamp(1.35 - beside, 0, 0.35) / 0.35) * (1 - cover);
                for (int c = 0; c < 3; c++)
                {
                    pixel[c] *= 1 - shade;
                }

                if (cover <= 0)
                {
                    continue;
                }

                double r = Math.Min(1, reach);
                double keep = 1 - (drop.Lens * (1 - (r * r)));
                Span<float> seen = Pixels.Floats(below, At(y, py, keep, box.Height)).Slice(3 * At(x, px, keep, box.Width), 3);
                double side = ((px * to.X) + (py * to.Y)) / radius;
                double rim = r * r * r * r;
                double gathered = drop.Height * (0.35 + hard) * 0.9 * Math.Exp(-(Square(side + 0.6) + Square(Across(px, py, to) / radius * 0.8)) / 0.12);
                double dark = 1 - (drop.Height * (0.16 + (0.5 * r * r * Math.Clamp(side + 0.2, 0, 1)) + (0.3 * rim)));
                double sky = drop.Height * (1 - (0.5 * hard)) * ((0.05 * rim) + (0.1 * Math.Exp(-(Square(side - 0.35) + Square(Across(px, py, to) / radius)) / 0.05)));
                double sun = hard * 1.3 * Math.Exp(-(Square(side - 0.5) + Square(Across(px, py, to) / radius)) / (0.004 + (0.012 * (1 - hard))));
                for (int c = 0; c < 3; c++)
                {
                    double drawn = (seen[c] * Math.Max(0.15, dark + gathered)) + sky + sun;
                    pixel[c] += cover * ((float)drawn - pixel[c]);
                }
            }
        }
    }

    private static double Cover(WaterDrop drop, double reach) => Damage.Blob.Profile(reach, drop.Shape.Soft);

    private static double Across(double x, double y, Point2d to) => (y * to.X) - (x * to.Y);

    private static double Square(double value) => value * value;

    // Place in the clone that the lens shows: nearer to the middle of the drop by the share it keeps.
    private static int At(int place, double fromCentre, double keep, int end)
        => Math.Clamp((int)Math.Round(place - (fromCentre * (1 - keep))), 0, end - 1);

    private static Rect Around(Point2d centre, double reach, Size sheet)
        => new Rect((int)(centre.X - reach), (int)(centre.Y - reach), (int)(2 * reach) + 2, (int)(2 * reach) + 2).Intersect(new Rect(0, 0, sheet.Width, sheet.Height));
}
