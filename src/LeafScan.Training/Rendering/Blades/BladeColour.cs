using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>What the blade's tissue looks like in even light: its own uneven colour, veins, then damage on top.</summary>
internal static class BladeColour
{
    /// <summary>Float picture of three channels in B, G, R order: reflectance in linear light.</summary>
    public static Mat Paint(BladeShape shape, Venation veins, BladeDamage damage, Host host, LeafSpec spec, Random random)
    {
        double mm = shape.PixelsPerMm;
        using Mat slow = SmoothNoise.Make(shape.SheetSize, shape.LengthPx / 4, random, 3, 0.5);
        using Mat hue = SmoothNoise.Make(shape.SheetSize, shape.LengthPx / 3, random, 2, 0.5);
        using Mat quick = SmoothNoise.Make(shape.SheetSize, Math.Max(2, 0.5 * mm), random, 3, 0.7);
        using Cells islands = Cells.Make(shape.SheetSize, Math.Max(4, 0.7 * mm), random);
        using Mat patches = islands.Values(random);
        LinearColour own = spec.Colour.Linear();
        LinearColour warm = spec.Colour.Move(5, 4, 9).Linear();
        bool green = spec.Colour.A < 0;
        LinearColour vein = (green ? spec.Colour.Move(15, 3, 6) : spec.Colour.Move(10, 3, 2)).Linear();
        LinearColour pale = spec.Colour.Move(Math.Min(30, 78 - spec.Colour.L), 0, 0).Move(0, (-3 - spec.Colour.A) * 0.85, (22 - spec.Colour.B) * 0.5).Linear();
        if (spec.Damage.SpeckSilver > 0)
        {
            // Cells full of air: nearly neutral and bright.
            pale = Mix(pale, new Photos.Colour.LabColour(Math.Min(80, spec.Colour.L + 33), -3, 7).Linear(), (float)spec.Damage.SpeckSilver);
        }

        LinearColour yellow = new Photos.Colour.LabColour(Math.Min(74, spec.Colour.L + random.Between(19, 27)), random.Between(-9, 0), Math.Max(20, spec.Colour.B) + random.Between(10, 21)).Linear();
        LinearColour brown = new Photos.Colour.LabColour(random.Between(36, 58), random.Between(4, 9), random.Between(16, 25)).Linear();
        LinearColour rim = new Photos.Colour.LabColour(random.Between(18, 27), random.Between(6, 12), random.Between(8, 14)).Linear();
        LinearColour dust = new(0.42f, 0.40f, 0.37f);
        float spread = (float)(0.07 + (0.15 * spec.Mottle));
        float turn = (float)(0.08 + (0.3 * spec.Mottle));
        Mat colour = new(shape.SheetSize, MatType.CV_32FC3);
        int rows = colour.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> to = Pixels.Floats(colour, y);
            Span<float> s = Pixels.Floats(slow, y);
            Span<float> h = Pixels.Floats(hue, y);
            Span<float> q = Pixels.Floats(quick, y);
            Span<float> p = Pixels.Floats(patches, y);
            Span<float> main = Pixels.Floats(veins.Main, y);
            Span<float> mesh = Pixels.Floats(veins.Network, y);
            Span<float> fine = Pixels.Floats(veins.Fine, y);
            Span<float> bleach = Pixels.Floats(damage.Bleach, y);
            Span<float> sick = Pixels.Floats(damage.Yellow, y);
            Span<float> dead = Pixels.Floats(damage.Brown, y);
            Span<float> dark = Pixels.Floats(damage.BrownRim, y);
            Span<float> grey = Pixels.Floats(damage.Dust, y);
            float showVein = (float)host.VeinContrast;
            for (int x = 0; x < s.Length; x++)
            {
                float light = 1 + (spread * s[x]) + (0.085f * q[x]) + (0.2f * (p[x] - 0.5f));
                float blend = Math.Clamp((turn * h[x]) + 0.15f, 0, 1);
                LinearColour c = Mix(own, warm, blend);
                float v = Math.Min(1, (main[x] * 0.95f) + (mesh[x] * 0.36f) + (fine[x] * 0.2f)) * showVein;
                c = Mix(c, vein, v);
                c = Mix(c, yellow, sick[x] * (1 - (0.4f * Math.Min(1, main[x] + (0.5f * mesh[x])))));
                c = Mix(c, pale, bleach[x] * (0.85f + (0.08f * q[x])));
                c = c.Times(Math.Max(0.2f, light));
                float wear = Math.Clamp(1 + (0.16f * q[x]) + (0.12f * s[x]), 0.5f, 1.6f);
                c = Mix(c, brown.Times(wear), dead[x]);
                c = Mix(c, rim.Times(wear), dark[x] * 0.75f);
                c = Mix(c, dust, grey[x]);
                to[3 * x] = c.B;
                to[(3 * x) + 1] = c.G;
                to[(3 * x) + 2] = c.R;
            }
        }

        return colour;
    }

    private static LinearColour Mix(LinearColour from, LinearColour to, float share)
        => new(from.R + (share * (to.R - from.R)), from.G + (share * (to.G - from.G)), from.B + (share * (to.B - from.B)));
}
