using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>The stalk below the blade. It is no blade: the truth counts it as background.</summary>
internal static class Stalk
{
    public static void Draw(Mat light, LeafPose pose, Blade blade, LeafSpec spec)
    {
        double mm = spec.PixelsPerMm;
        if (spec.StalkMm <= 0)
        {
            return;
        }

        Random random = Chance.FromSeed(spec.Seed ^ 0x5bd1);
        BladeShape shape = blade.Shape;
        double bend = random.Between(-0.25, 0.25);
        double width = mm * Math.Clamp(shape.LengthPx / shape.PixelsPerMm / 45, 0.5, 1.4);
        LabColour tone = spec.Colour.Move(10, 4, 3);
        for (int pass = 0; pass < 3; pass++)
        {
            LinearColour c = tone.Move(-10 + (10 * pass), 0, 0).Linear();
            Point? last = null;
            for (int i = 0; i <= 14; i++)
            {
                double back = spec.StalkMm * shape.PixelsPerMm * i / 14;
                Point2d at = pose.ToPhoto(shape.X(0.012) - back, shape.CentreY + (bend * back * i / 14));
                Point here = new((int)Math.Round(at.X * 16), (int)Math.Round(at.Y * 16));
                if (last is { } from)
                {
                    Cv2.Line(light, from, here, new Scalar(c.B, c.G, c.R), Math.Max(1, (int)Math.Round(width * (1 - (0.35 * pass)))), LineTypes.Link8, 4);
                }

                last = here;
            }
        }
    }
}
