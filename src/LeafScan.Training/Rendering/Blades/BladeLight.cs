using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>
/// Lights a blade in place: even sky plus directed light by Lambert's cosine, and the sky mirrored by the skin of the leaf
/// where the surface leans the right way. Dead and bleached tissue shines less.
/// </summary>
internal static class BladeLight
{
    public static void Shine(Mat colour, BladeRelief relief, BladeShape shape, BladeDamage damage, Host host, LeafSpec spec, Lighting light, Random random)
    {
        double azimuth = (light.AzimuthDegrees - spec.AngleDegrees) * Math.PI / 180;
        double height = light.HeightDegrees * Math.PI / 180;
        float lx = (float)(Math.Cos(azimuth) * Math.Cos(height));
        float ly = (float)(Math.Sin(azimuth) * Math.Cos(height));
        float lz = (float)Math.Sin(height);
        float hard = (float)light.Hardness;
        float sky = 1 - hard;
        float gloss = (float)(host.Gloss * light.Shine);
        float tiltX = (float)(-Math.Cos(azimuth) * light.ShineSlope);
        float tiltY = (float)(-Math.Sin(azimuth) * light.ShineSlope);
        using Mat grain = SmoothNoise.Make(shape.SheetSize, Math.Max(1.6, 0.11 * shape.PixelsPerMm), random, 2, 0.7);
        using Mat band = light.ShadowBand > 0 ? SmoothNoise.Make(shape.SheetSize, shape.LengthPx / 2.5, random, 2, 0.3) : Pixels.NewFloat(shape.SheetSize);
        float shade = (float)light.ShadowBand;
        float through = (float)light.Through;
        int rows = colour.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> c = Pixels.Floats(colour, y);
            Span<float> sx = Pixels.Floats(relief.SlopeX, y);
            Span<float> sy = Pixels.Floats(relief.SlopeY, y);
            Span<float> g = Pixels.Floats(grain, y);
            Span<float> glint = Pixels.Floats(damage.Glint, y);
            Span<float> dead = Pixels.Floats(damage.Brown, y);
            Span<float> bleach = Pixels.Floats(damage.Bleach, y);
            Span<float> b = Pixels.Floats(band, y);
            for (int x = 0; x < sx.Length; x++)
            {
                float length = 1 / MathF.Sqrt(1 + (sx[x] * sx[x]) + (sy[x] * sy[x]));
                float cosine = Math.Max(0, ((-sx[x] * lx) - (sy[x] * ly) + lz) * length);
                float lit = (sky * (0.55f + (0.45f * length))) + (hard * cosine / lz);
                float direct = 1;
                if (shade > 0)
                {
                    direct = 1 - (shade * Math.Clamp((b[x] * 5) - 2, 0, 1));
                }

                lit *= direct;
                float dx = sx[x] - tiltX;
                float dy = sy[x] - tiltY;
                float off = (dx * dx) + (dy * dy);
                float mirror = gloss * ((0.34f * MathF.Exp(-off * 9)) + (0.2f * MathF.Exp(-off * 70))) * (1 + (0.16f * g[x]));
                mirror *= (1 - (0.85f * dead[x])) * (1 - (0.35f * bleach[x])) * direct;
                float spark = glint[x] * direct * (0.4f + (1.6f * MathF.Exp(-off * 8)));
                mirror = Math.Max(0, mirror) + spark;
                (float blue, float green, float red) = (lit, lit, lit);
                if (through > 0)
                {
                    // Leaf lets green and some red through and hardly any blue; dead tissue is thicker to light.
                    float passed = through * direct * (1 - (0.6f * dead[x]));
                    (blue, green, red) = (lit + (0.35f * passed), lit + (1.15f * passed), lit + passed);
                }

                c[3 * x] = (c[3 * x] * blue) + (mirror * 1.06f);
                c[(3 * x) + 1] = (c[(3 * x) + 1] * green) + mirror;
                c[(3 * x) + 2] = (c[(3 * x) + 2] * red) + (mirror * 0.95f);
            }
        }
    }
}
