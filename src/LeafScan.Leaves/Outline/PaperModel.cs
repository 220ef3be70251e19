using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// The colour of the sheet, as planes of ln(R/G) and ln(B/G) over the frame. Light that falls off and shadows of the leaf
/// change how bright the sheet is but hardly these ratios; a leaf changes them.
/// </summary>
internal sealed class PaperModel
{
    // Paper of any make is near neutral even under tungsten light or a blue sky.
    private const double MostColour = 0.75;

    // Shadows are lit by the sky and walls: their tint may drift by about this much.
    private const double LeastSpread = 0.045;

    private readonly double[] _redToGreen;
    private readonly double[] _blueToGreen;

    private PaperModel(double[] redToGreen, double[] blueToGreen, double spreadRed, double spreadBlue)
    {
        _redToGreen = redToGreen;
        _blueToGreen = blueToGreen;
        SpreadRed = spreadRed;
        SpreadBlue = spreadBlue;
    }

    /// <summary>Spread of ln(R/G) on the sheet.</summary>
    public double SpreadRed { get; }

    /// <summary>Spread of ln(B/G) on the sheet.</summary>
    public double SpreadBlue { get; }

    /// <summary>Fits the sheet, or null when the frame's border does not look like one.</summary>
    public static PaperModel? Fit(Mat small, ColourRatios ratios, OutlineOptions options)
    {
        List<Sample> border = Border(small, ratios);
        if (border.Count < 100)
        {
            return null;
        }

        (double red, double blue) = Middle(border);
        if (Math.Abs(red) > MostColour || Math.Abs(blue) > MostColour)
        {
            return null;
        }

        // Around the most frequent colour of the border.
        List<Sample> near = border.Where(s => Math.Abs(s.Red - red) < 0.16 && Math.Abs(s.Blue - blue) < 0.24).ToList();
        if (near.Count < options.SheetBorderShare * border.Count || Texture(near) > 0.12)
        {
            return null;
        }

        double[] planeRed = Plane(near, s => s.Red);
        double[] planeBlue = Plane(near, s => s.Blue);
        double spreadRed = Spread(near, s => s.Red - At(planeRed, s.U, s.V));
        double spreadBlue = Spread(near, s => s.Blue - At(planeBlue, s.U, s.V));
        return new PaperModel(planeRed, planeBlue, Math.Max(spreadRed, LeastSpread), Math.Max(spreadBlue, LeastSpread * 1.5));
    }

    /// <summary>Distance of each pixel's colour from the sheet's, in spreads; 32-bit float.</summary>
    public Mat Distance(Mat small, ColourRatios ratios)
    {
        Mat distance = new(small.Size(), MatType.CV_32FC1);
        (int rows, int cols) = (small.Rows, small.Cols);
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<Vec3b> pixels = small.AsRow<Vec3b>(y);
            ReadOnlySpan<float> red = ratios.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> blue = ratios.BlueToGreen.AsRow<float>(y);
            Span<float> to = distance.AsRow<float>(y);
            double v = (2.0 * y / rows) - 1;
            for (int x = 0; x < to.Length; x++)
            {
                double u = (2.0 * x / cols) - 1;

                // Ratios of dark pixels are noisy: their spread grows as the level falls.
                double level = Math.Max((int)pixels[x].Item1, 4);
                double noise = 1 + (14 / level);
                double r = (red[x] - At(_redToGreen, u, v)) / (SpreadRed * noise);
                double b = (blue[x] - At(_blueToGreen, u, v)) / (SpreadBlue * noise);
                to[x] = (float)Math.Sqrt((r * r) + (b * b));
            }
        }

        return distance;
    }

    private static List<Sample> Border(Mat small, ColourRatios ratios)
    {
        List<Sample> samples = [];
        (int rows, int cols) = (small.Rows, small.Cols);
        int band = Math.Max(3, Math.Min(rows, cols) / 25);
        for (int y = 0; y < rows; y++)
        {
            bool edgeRow = y < band || y >= rows - band;
            ReadOnlySpan<Vec3b> pixels = small.AsRow<Vec3b>(y);
            ReadOnlySpan<float> red = ratios.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> blue = ratios.BlueToGreen.AsRow<float>(y);
            for (int x = 0; x < cols; x++)
            {
                if (edgeRow || x < band || x >= cols - band)
                {
                    samples.Add(new Sample((2.0 * x / cols) - 1, (2.0 * y / rows) - 1, red[x], blue[x], pixels[x].Item1));
                }
            }
        }

        return samples;
    }

    // The most frequent colour of the border, from a coarse two-dimensional histogram.
    private static (double Red, double Blue) Middle(List<Sample> border)
    {
        Dictionary<(int, int), (int N, double Red, double Blue)> bins = [];
        foreach (Sample s in border)
        {
            for (int i = 0; i <= 1; i++)
            {
                for (int j = 0; j <= 1; j++)
                {
                    (int, int) key = ((int)Math.Floor(s.Red / 0.12) + i, (int)Math.Floor(s.Blue / 0.18) + j);
                    (int n, double red, double blue) = bins.GetValueOrDefault(key);
                    bins[key] = (n + 1, red + s.Red, blue + s.Blue);
                }
            }
        }

        (int count, double sumRed, double sumBlue) = bins.Values.MaxBy(b => b.N);
        return (sumRed / count, sumBlue / count);
    }

    // Sheets are smooth along the border; soil, bark and grass of one tint are not.
    private static double Texture(List<Sample> near)
    {
        double sum = 0;
        int n = 0;
        for (int i = 1; i < near.Count; i++)
        {
            if (near[i].V == near[i - 1].V && near[i].U - near[i - 1].U < 0.02)
            {
                double a = Math.Max((double)near[i].Level, 6);
                double b = Math.Max((double)near[i - 1].Level, 6);
                sum += Math.Abs(Math.Log(a / b));
                n++;
            }
        }

        return n == 0 ? 1 : sum / n;
    }

    private static double[] Plane(List<Sample> samples, Func<Sample, double> pick)
    {
        double suu = 0, svv = 0, suv = 0, sut = 0, svt = 0;
        double meanU = samples.Average(s => s.U);
        double meanV = samples.Average(s => s.V);
        double mean = samples.Average(pick);
        foreach (Sample s in samples)
        {
            (double u, double v, double t) = (s.U - meanU, s.V - meanV, pick(s) - mean);
            suu += u * u;
            svv += v * v;
            suv += u * v;
            sut += u * t;
            svt += v * t;
        }

        double ridge = 0.02 * samples.Count;
        double determinant = ((suu + ridge) * (svv + ridge)) - (suv * suv);
        double slopeU = ((sut * (svv + ridge)) - (svt * suv)) / determinant;
        double slopeV = ((svt * (suu + ridge)) - (sut * suv)) / determinant;
        return [mean - (slopeU * meanU) - (slopeV * meanV), slopeU, slopeV];
    }

    private static double Spread(List<Sample> samples, Func<Sample, double> residual)
    {
        double[] sizes = samples.Select(s => Math.Abs(residual(s))).Order().ToArray();
        return 1.48 * sizes[sizes.Length / 2];
    }

    private static double At(double[] plane, double u, double v) => plane[0] + (plane[1] * u) + (plane[2] * v);

    private readonly record struct Sample(double U, double V, float Red, float Blue, byte Level);
}
