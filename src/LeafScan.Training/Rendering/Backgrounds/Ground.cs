using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Backgrounds;

/// <summary>Soil, gravel and mulch: heights from noise and thrown pieces, lit from one side, coloured piece by piece.</summary>
internal static class Ground
{
    public static Mat Soil(Size photo, double mm, Random random)
    {
        using Mat lie = SmoothNoise.Make(photo, random.Between(8, 30) * mm, random, 5, 0.55);
        using Mat tone = SmoothNoise.Make(photo, 5 * mm, random, 5, 0.75);
        using Mat crumb = SmoothNoise.Make(photo, Math.Max(2, 0.5 * mm), random, 3, 0.8);
        double size = random.Between(0.8, 1.8) * mm;
        using Pieces clods = Pieces.Throw(photo, size, 0.75, random.Between(0.5, 1.6), 0.35, random);
        Cv2.ScaleAdd(tone, 0.12, clods.Height, clods.Height);
        Cv2.ScaleAdd(crumb, 0.05, clods.Height, clods.Height);
        Cv2.ScaleAdd(lie, 0.5, clods.Height, clods.Height);
        LabColour earth = new(random.Between(26, 46), random.Between(3, 15), random.Between(8, 22));
        Mat picture = Lit(clods.Height, size, earth, clods.Tone, 0.25f, tone, 0.13f);
        Litter.Strew(picture, mm, random);
        return picture;
    }

    public static Mat Gravel(Size photo, double mm, Random random)
    {
        double size = random.Between(2.5, 7) * mm;
        using Pieces stones = Pieces.Throw(photo, size, 0.35, 3.2, random.NextDouble(), random);
        using Mat rough = SmoothNoise.Make(photo, 1.2 * mm, random, 4, 0.7);
        Cv2.ScaleAdd(rough, 0.012, stones.Height, stones.Height);
        return Lit(stones.Height, 0.75 * size, new LabColour(random.Between(48, 64), random.Between(0, 4), random.Between(3, 10)), stones.Tone, 0.75f, rough, 0.1f);
    }

    public static Mat Mulch(Size photo, double mm, Random random)
    {
        Mat picture = new(photo, MatType.CV_32FC3, new Scalar(0.012, 0.014, 0.02));
        int chips = (int)Math.Min(2500, 3.5 * photo.Width * photo.Height / (14 * mm * 5 * mm));
        for (int i = 0; i < chips; i++)
        {
            double rank = (double)i / chips;
            LinearColour c = new LabColour(random.Between(20, 44) * (0.6 + (0.4 * rank)), random.Between(8, 15), random.Between(10, 22)).Linear();
            Point2f centre = new((float)random.Between(0, photo.Width), (float)random.Between(0, photo.Height));
            Size2f size = new(random.Between(8, 26) * mm, random.Between(2.5, 7) * mm);
            Point[] corners = Chip(centre, size, random.Between(0, Math.PI), random);
            Point2d fall = new(0.5 * mm, 0.7 * mm);
            Cv2.FillConvexPoly(picture, corners.Select(p => new Point(p.X + fall.X, p.Y + fall.Y)), new Scalar(c.B * 0.25, c.G * 0.25, c.R * 0.25));
            Cv2.FillConvexPoly(picture, corners, new Scalar(c.B, c.G, c.R));
        }

        using Mat grain = SmoothNoise.Make(photo, 2 * mm, random, 4, 0.75);
        Shade(picture, grain, 0.3f);
        return picture;
    }

    private static Point[] Chip(Point2f centre, Size2f size, double angle, Random random)
        => [.. new (double X, double Y)[] { (-0.5, -0.3), (-0.3, -0.5), (0.35, -0.5), (0.5, -0.1), (0.4, 0.45), (-0.4, 0.5) }.Select(corner =>
        {
            double x = corner.X * size.Width * random.Between(0.8, 1.2);
            double y = corner.Y * size.Height * random.Between(0.7, 1.3);
            return new Point(centre.X + (x * Math.Cos(angle)) - (y * Math.Sin(angle)), centre.Y + (x * Math.Sin(angle)) + (y * Math.Cos(angle)));
        })];

    private static void Shade(Mat picture, Mat grain, float strength)
    {
        int rows = picture.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> c = Pixels.Floats(picture, y);
            Span<float> g = Pixels.Floats(grain, y);
            for (int x = 0; x < g.Length; x++)
            {
                float light = Math.Clamp(1 + (strength * g[x]), 0.25f, 2);
                c[3 * x] *= light;
                c[(3 * x) + 1] *= light;
                c[(3 * x) + 2] *= light;
            }
        }
    }

    private static Mat Lit(Mat height, double heightPx, LabColour colour, Mat tones, float toneSpread, Mat grain, float grainSpread)
    {
        using Mat slope = new();
        using Mat across = new();
        Cv2.Sobel(height, slope, MatType.CV_32FC1, 1, 0, 3, 0.125);
        Cv2.Sobel(height, across, MatType.CV_32FC1, 0, 1, 3, 0.125);
        Cv2.Add(slope, across, slope);
        LinearColour c = colour.Linear();
        LinearColour warm = colour.Move(4, 5, 5).Linear();
        Mat picture = new(height.Size(), MatType.CV_32FC3);
        int rows = picture.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> to = Pixels.Floats(picture, y);
            Span<float> s = Pixels.Floats(slope, y);
            Span<float> t = Pixels.Floats(tones, y);
            Span<float> g = Pixels.Floats(grain, y);
            Span<float> h = Pixels.Floats(height, y);
            for (int x = 0; x < s.Length; x++)
            {
                float lit = Math.Clamp(1 - (float)(s[x] * heightPx * 0.5), 0.15f, 2.2f) * Math.Clamp(0.75f + (0.3f * h[x]), 0.2f, 1.3f);
                float tone = Math.Max(0.15f, (1 + (toneSpread * (t[x] - 0.5f)) + (grainSpread * g[x])) * lit);
                float w = t[x] * t[x];
                to[3 * x] = (c.B + (w * (warm.B - c.B))) * tone;
                to[(3 * x) + 1] = (c.G + (w * (warm.G - c.G))) * tone;
                to[(3 * x) + 2] = (c.R + (w * (warm.R - c.R))) * tone;
            }
        }

        return picture;
    }
}
