using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Backgrounds;

/// <summary>Paper: nearly even, with a tint, faint fibre and waves of a sheet that does not lie quite flat.</summary>
internal static class Sheet
{
    public static Mat Paint(Size photo, Random random)
    {
        using Mat wave = SmoothNoise.Make(photo, photo.Width / 2.5, random, 2, 0.4);
        using Mat fibre = SmoothNoise.Make(photo, 3, random, 2, 0.8);
        double white = random.Between(0.7, 0.86);
        LinearColour paper = new((float)(white * random.Between(0.98, 1.02)), (float)white, (float)(white * random.Between(0.95, 1.04)));
        Mat picture = new(photo, MatType.CV_32FC3);
        for (int y = 0; y < photo.Height; y++)
        {
            Span<float> to = Pixels.Floats(picture, y);
            Span<float> w = Pixels.Floats(wave, y);
            Span<float> f = Pixels.Floats(fibre, y);
            for (int x = 0; x < w.Length; x++)
            {
                float light = 1 + (0.018f * w[x]) + (0.006f * f[x]);
                to[3 * x] = paper.B * light;
                to[(3 * x) + 1] = paper.G * light;
                to[(3 * x) + 2] = paper.R * light;
            }
        }

        return picture;
    }
}
