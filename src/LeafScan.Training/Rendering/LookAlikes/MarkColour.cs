using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>Colours the marks into the tissue, before it is lit.</summary>
internal static class MarkColour
{
    public static void Over(Mat colour, BladeMarks marks, BladeDamage damage, LeafSpec spec, Random random)
    {
        LabColour own = spec.Colour;
        LinearColour pale = own.Move(random.Between(12, 22), random.Between(1, 7), random.Between(3, 14)).Linear();
        LinearColour dark = own.Move(-9, 2, -4).Linear();
        LinearColour emptied = own.Move(Math.Min(26, 76 - own.L), 0, 0).Move(0, (-6 - own.A) * 0.6, (18 - own.B) * 0.5).Linear();
        LinearColour tar = new LabColour(random.Between(8, 15), random.Between(1, 5), random.Between(1, 6)).Linear();
        LinearColour dry = new LabColour(random.Between(48, 66), random.Between(3, 8), random.Between(17, 27)).Linear();
        using Mat uneven = SmoothNoise.Make(colour.Size(), Math.Max(2, 0.9 * spec.PixelsPerMm * Blade.Finer), random, 3, 0.7);
        int rows = colour.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> to = Pixels.Floats(colour, y);
            Span<float> natural = Pixels.Floats(marks.Natural, y);
            Span<float> mined = Pixels.Floats(marks.Mined, y);
            Span<float> drop = Pixels.Floats(marks.Dark, y);
            Span<float> brown = Pixels.Floats(damage.Brown, y);
            Span<float> bleach = Pixels.Floats(damage.Bleach, y);
            Span<float> patch = Pixels.Floats(uneven, y);
            for (int x = 0; x < natural.Length; x++)
            {
                // Where the green is gone nothing is left to be mottled.
                float left = (1 - brown[x]) * (1 - bleach[x]);
                Span<float> pixel = to.Slice(3 * x, 3);
                if (natural[x] != 0)
                {
                    Mix(pixel, natural[x] > 0 ? pale : dark, left * Math.Min(1, Math.Abs(natural[x])));
                }

                Mix(pixel, emptied, (1 - brown[x]) * mined[x] * Math.Clamp(0.85f + (0.2f * patch[x]), 0.35f, 1));
                Mix(pixel, dry, brown[x] * mined[x] * Math.Clamp(0.6f + (0.35f * patch[x]), 0, 1));
                Mix(pixel, tar, drop[x]);
            }
        }
    }

    private static void Mix(Span<float> pixel, LinearColour to, float share)
    {
        if (share > 0)
        {
            pixel[0] += share * (to.B - pixel[0]);
            pixel[1] += share * (to.G - pixel[1]);
            pixel[2] += share * (to.R - pixel[2]);
        }
    }
}
