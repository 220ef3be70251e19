using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Backgrounds;

/// <summary>
/// Stones or crumbs thrown onto each other: rounded, a little angular, of many sizes; the higher one hides the lower one.
/// Owns its pictures.
/// </summary>
internal sealed class Pieces : IDisposable
{
    private Pieces(Size photo)
    {
        Height = new Mat(photo, MatType.CV_32FC1, Scalar.All(-0.6));
        Tone = new Mat(photo, MatType.CV_32FC1, Scalar.All(0.2));
    }

    /// <summary>Float: height in units of the middle size of a piece; -0.6 where none lies.</summary>
    public Mat Height { get; }

    /// <summary>Float 0..1: one value per piece.</summary>
    public Mat Tone { get; }

    /// <summary>Throws pieces.</summary>
    /// <param name="photo">Size of the photo.</param>
    /// <param name="sizePx">Middle half length of a piece.</param>
    /// <param name="spread">Spread of the logarithm of their sizes.</param>
    /// <param name="cover">How many times they would cover the photo.</param>
    /// <param name="angular">0 round pebbles to 1 broken stone.</param>
    /// <param name="random">Source of chance.</param>
    public static Pieces Throw(Size photo, double sizePx, double spread, double cover, double angular, Random random)
    {
        Pieces thrown = new(photo);
        double area = Math.PI * 0.7 * sizePx * sizePx * Math.Exp(2 * spread * spread);
        int count = (int)Math.Clamp(cover * photo.Width * photo.Height / area, 1, 60_000);
        for (int i = 0; i < count; i++)
        {
            thrown.Drop(sizePx, Math.Clamp(random.LogNormal(1, spread), 0.2, 4), angular, random);
        }

        return thrown;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Height.Dispose();
        Tone.Dispose();
    }

    private void Drop(double sizePx, double size, double angular, Random random)
    {
        double half = size * sizePx;
        Point2d centre = new(random.Between(-half, Height.Cols + half), random.Between(-half, Height.Rows + half));
        double turn = random.Between(0, Math.PI);
        (double cos, double sin) = (Math.Cos(turn), Math.Sin(turn));
        double slim = random.Between(0.55, 0.95);
        float rest = (float)random.Between(-0.35, 0.55);
        float tall = (float)(size * random.Between(0.5, 0.85));
        float tone = random.NextSingle();

        // Flat faces: planes that cut the dome.
        int faces = (int)Math.Round(6 * angular);
        Span<(float X, float Y, float Off)> cuts = stackalloc (float, float, float)[6];
        for (int f = 0; f < faces; f++)
        {
            double a = random.Between(0, 2 * Math.PI);
            cuts[f] = ((float)Math.Cos(a), (float)Math.Sin(a), (float)random.Between(0.6, 0.95));
        }

        int left = Math.Max(0, (int)(centre.X - half));
        int right = Math.Min(Height.Cols, (int)(centre.X + half) + 1);
        int bottom = Math.Min(Height.Rows, (int)(centre.Y + half) + 1);
        for (int y = Math.Max(0, (int)(centre.Y - half)); y < bottom; y++)
        {
            Span<float> height = Pixels.Floats(Height, y);
            Span<float> tones = Pixels.Floats(Tone, y);
            double py = (y - centre.Y) / half;
            for (int x = left; x < right; x++)
            {
                double px = (x - centre.X) / half;
                float u = (float)((px * cos) + (py * sin));
                float v = (float)(((py * cos) - (px * sin)) / slim);
                float dome = 1 - (u * u) - (v * v);
                for (int f = 0; f < faces; f++)
                {
                    dome = Math.Min(dome, 1.6f * (cuts[f].Off - (u * cuts[f].X) - (v * cuts[f].Y)));
                }

                if (dome <= 0)
                {
                    continue;
                }

                float here = rest + (tall * MathF.Sqrt(Math.Min(1, dome)));
                if (here > height[x])
                {
                    height[x] = here;
                    tones[x] = tone;
                }
            }
        }
    }
}
