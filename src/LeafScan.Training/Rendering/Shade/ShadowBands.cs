using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Shade;

/// <summary>Darkens a lit scene by bands of shadow.</summary>
internal static class ShadowBands
{
    /// <param name="light">Float B, G, R of the whole photo, leaves and ground; changed.</param>
    /// <param name="spec">The bands.</param>
    /// <param name="mm">Pixels per mm.</param>
    public static void Fall(Mat light, ShadowBandSpec spec, double mm)
    {
        Random random = Chance.FromSeed(spec.Seed);
        double angle = spec.AngleDegrees * Math.PI / 180;

        // One in each strip of what the photo shows, so that none is drawn for nothing.
        double reach = (light.Cols * Math.Abs(Math.Sin(angle))) + (light.Rows * Math.Abs(Math.Cos(angle)));
        List<(double Middle, double Half, double Slope)> bands = [.. Enumerable.Range(0, spec.Count).Select(i =>
            (reach * (((i + random.NextDouble()) / spec.Count) - 0.5), random.LogNormal(spec.WidthMm, 0.4) * mm / 2, 0.06 * random.Normal()))];
        double soft = Math.Max(1, spec.SoftMm * mm);

        // Slow for the way a twig bends, quick for leaves along it.
        using Mat bend = SmoothNoise.Make(light.Size(), reach, random, 2, 0.4);
        using Mat leafy = SmoothNoise.Make(light.Size(), Math.Max(6, 2.2 * spec.WidthMm * mm), random, 2, 0.5);
        double wander = spec.Ragged * reach * 0.12;
        double swell = spec.Ragged * spec.WidthMm * mm * 0.8;
        (double cos, double sin) = (Math.Cos(angle), Math.Sin(angle));
        int rows = light.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = Pixels.Floats(light, y);
            Span<float> off = Pixels.Floats(bend, y);
            Span<float> thick = Pixels.Floats(leafy, y);
            double py = y - (rows / 2.0);
            for (int x = 0; x < off.Length; x++)
            {
                double px = x - (off.Length / 2.0);
                double along = (px * cos) + (py * sin);
                double across = (py * cos) - (px * sin) + (wander * off[x]);
                double most = 0;
                foreach ((double middle, double half, double slope) in bands)
                {
                    double inside = half + (swell * thick[x]) - Math.Abs(across - middle - (slope * along));
                    most = Math.Max(most, Math.Clamp((inside / soft) + 0.5, 0, 1));
                }

                // The sky fills shadows with a little blue.
                float taken = (float)(spec.Darkness * most * most * (3 - (2 * most)));
                row[3 * x] *= 1 - (0.9f * taken);
                row[(3 * x) + 1] *= 1 - taken;
                row[(3 * x) + 2] *= 1 - taken;
            }
        }
    }
}
