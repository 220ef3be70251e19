using OpenCvSharp;

namespace LeafScan.Training.Rendering.Support;

/// <summary>Smooth random fields: random values on a grid, drawn through by cubic curves, several grid sizes on top of each other.</summary>
internal static class SmoothNoise
{
    /// <summary>A field of about mean 0 and spread 1.</summary>
    /// <param name="size">Size of the field.</param>
    /// <param name="scalePx">Distance of the grid points of the coarsest layer.</param>
    /// <param name="random">Source of chance.</param>
    /// <param name="layers">How many layers; each has half the distance and <paramref name="gain"/> times the strength.</param>
    /// <param name="gain">Strength of a layer relative to the one before.</param>
    public static Mat Make(Size size, double scalePx, Random random, int layers = 1, double gain = 0.5)
    {
        Mat sum = Pixels.NewFloat(size);
        double strength = 1;
        double squares = 0;
        for (int layer = 0; layer < layers; layer++)
        {
            using Mat one = Layer(size, Math.Max(1, scalePx), random);
            Cv2.ScaleAdd(one, strength, sum, sum);
            squares += strength * strength;
            strength *= gain;
            scalePx /= 2;
        }

        // A cubic curve through independent values keeps about 0.68 of their spread, averaged over the cell.
        sum.ConvertTo(sum, MatType.CV_32FC1, 1 / (0.68 * Math.Sqrt(squares)));
        return sum;
    }

    private static Mat Layer(Size size, double scale, Random random)
    {
        int columns = (int)Math.Ceiling(size.Width / scale) + 3;
        int rows = (int)Math.Ceiling(size.Height / scale) + 3;
        NoiseSource noise = new(random);
        using Mat grid = new(rows, columns, MatType.CV_32FC1);
        for (int y = 0; y < rows; y++)
        {
            foreach (ref float value in Pixels.Floats(grid, y))
            {
                value = noise.Next();
            }
        }

        using Mat drawn = new();
        Cv2.Resize(grid, drawn, new Size((int)(columns * scale), (int)(rows * scale)), 0, 0, InterpolationFlags.Cubic);
        int left = (int)(scale * random.Between(0.5, 1));
        int top = (int)(scale * random.Between(0.5, 1));
        using Mat part = new(drawn, new Rect(left, top, size.Width, size.Height));
        return part.Clone();
    }
}
