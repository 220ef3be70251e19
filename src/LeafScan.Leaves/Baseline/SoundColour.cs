using System.Numerics;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.Baseline;

/// <summary>
/// The leaf's own sound colour as a smooth surface over the blade, so that blue, gold and red cultivars and uneven light
/// are judged against themselves. Each colour ratio is a quadratic in x and y, fitted by least squares with pixels on the
/// yellow side of the surface thrown out again and again (a one-sided version of iterative trimming): damage only ever
/// moves the colour to that side.
/// </summary>
internal sealed class SoundColour
{
    private readonly double[] _redToGreen;
    private readonly double[] _blueToGreen;
    private readonly Size _size;

    private SoundColour(double[] redToGreen, double[] blueToGreen, Size size, double keptShare, double spread)
    {
        _redToGreen = redToGreen;
        _blueToGreen = blueToGreen;
        _size = size;
        KeptShare = keptShare;
        Spread = spread;
    }

    /// <summary>Share of the leaf that was taken as sound while fitting, 0..1. Small means the surface is a guess.</summary>
    public double KeptShare { get; }

    /// <summary>Spread (standard deviation) of ln(R/G) of the kept pixels about the surface.</summary>
    public double Spread { get; }

    /// <summary>Fits the surface.</summary>
    /// <param name="ratios">Colour ratios of the patch.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    public static SoundColour Fit(ColourRatios ratios, Mat mask)
    {
        const int longSide = 200;
        double shrink = Math.Min(1.0, longSide / (double)Math.Max(mask.Cols, mask.Rows));
        Size size = new(Math.Max(1, (int)(mask.Cols * shrink)), Math.Max(1, (int)(mask.Rows * shrink)));
        using Mat inside = new();
        Cv2.Resize(mask, inside, size, 0, 0, InterpolationFlags.Area);
        using Mat rg = new();
        using Mat bg = new();
        Cv2.Resize(ratios.RedToGreen, rg, size, 0, 0, InterpolationFlags.Area);
        Cv2.Resize(ratios.BlueToGreen, bg, size, 0, 0, InterpolationFlags.Area);

        List<Sample> samples = [];
        for (int y = 0; y < size.Height; y++)
        {
            ReadOnlySpan<byte> m = inside.AsRow<byte>(y);
            ReadOnlySpan<float> r = rg.AsRow<float>(y);
            ReadOnlySpan<float> b = bg.AsRow<float>(y);
            for (int x = 0; x < size.Width; x++)
            {
                if (m[x] >= 250)
                {
                    samples.Add(new Sample(Centred(x, size.Width), Centred(y, size.Height), r[x], b[x]));
                }
            }
        }

        if (samples.Count < 24)
        {
            double meanRg = Cv2.Mean(ratios.RedToGreen, mask).Val0;
            double meanBg = Cv2.Mean(ratios.BlueToGreen, mask).Val0;
            return new SoundColour([meanRg, 0, 0, 0, 0, 0], [meanBg, 0, 0, 0, 0, 0], mask.Size(), 0, 0.1);
        }

        return FitSamples(samples, mask.Size());
    }

    /// <summary>One row of the surface: ln(R/G) and ln(B/G).</summary>
    /// <param name="y">Row of the patch.</param>
    /// <param name="redToGreen">Receives a value for each pixel.</param>
    /// <param name="blueToGreen">The same.</param>
    public void Row(int y, Span<float> redToGreen, Span<float> blueToGreen)
    {
        double v = Centred(y, _size.Height);
        Row(_redToGreen, v, redToGreen);
        Row(_blueToGreen, v, blueToGreen);
    }

    // Along a row the surface is a quadratic in u alone.
    private static void Row(double[] c, double v, Span<float> to)
    {
        Vector<float> flat = new((float)(c[0] + (c[2] * v) + (c[5] * v * v)));
        Vector<float> slope = new((float)(c[1] + (c[4] * v)));
        Vector<float> bend = new((float)c[3]);
        float step = to.Length > 1 ? 2f / (to.Length - 1) : 0;
        float start = to.Length > 1 ? -1 : 0;
        Vector<float> ahead = Vector.CreateSequence(0f, step);
        Span<float> last = stackalloc float[Vector<float>.Count];
        for (int x = 0; x < to.Length; x += Vector<float>.Count)
        {
            Vector<float> u = ahead + new Vector<float>(start + (x * step));
            Vector<float> value = flat + (u * (slope + (u * bend)));
            if (x + Vector<float>.Count <= to.Length)
            {
                value.CopyTo(to[x..]);
            }
            else
            {
                value.CopyTo(last);
                last[..(to.Length - x)].CopyTo(to[x..]);
            }
        }
    }

    private static SoundColour FitSamples(List<Sample> samples, Size size)
    {
        // Start from the greener half: with up to half of the blade discoloured the first surface is still a sound one.
        double middle = Median(samples.Select(s => s.Rg));
        List<Sample> kept = samples.Where(s => s.Rg <= middle + 0.05).ToList();
        double[] rg = Constant(kept.Average(s => s.Rg));
        double spread = 0.1;
        for (int round = 0; round < 6; round++)
        {
            rg = Solve(kept, s => s.Rg, round < 2);
            double[] residuals = samples.Select(s => s.Rg - Value(rg, s.U, s.V)).ToArray();

            // The lower half of the residuals is clean of damage: its width gives the noise of sound tissue.
            double[] below = residuals.Where(r => r < 0).Select(r => -r).ToArray();
            spread = Math.Clamp(below.Length > 8 ? 1.48 * Median(below) : 0.1, 0.03, 0.35);
            double limit = 1.5 * spread;
            List<Sample> next = [];
            for (int i = 0; i < samples.Count; i++)
            {
                if (residuals[i] < limit && residuals[i] > -4 * spread)
                {
                    next.Add(samples[i]);
                }
            }

            if (next.Count < 24)
            {
                break;
            }

            kept = next;
        }

        double[] bg = Solve(kept, s => s.Bg, false);
        return new SoundColour(rg, bg, size, kept.Count / (double)samples.Count, spread);
    }

    private static double[] Solve(List<Sample> samples, Func<Sample, double> pick, bool plane)
    {
        int terms = plane ? 3 : 6;
        using Mat left = new(terms, terms, MatType.CV_64FC1, Scalar.All(0));
        using Mat right = new(terms, 1, MatType.CV_64FC1, Scalar.All(0));
        double[,] normal = new double[terms, terms];
        double[] target = new double[terms];
        double[] row = new double[6];
        foreach (Sample s in samples)
        {
            Terms(s.U, s.V, row);
            double value = pick(s);
            for (int i = 0; i < terms; i++)
            {
                target[i] += row[i] * value;
                for (int j = i; j < terms; j++)
                {
                    normal[i, j] += row[i] * row[j];
                }
            }
        }

        // The other half of the products is the same.
        for (int i = 1; i < terms; i++)
        {
            for (int j = 0; j < i; j++)
            {
                normal[i, j] = normal[j, i];
            }
        }

        for (int i = 0; i < terms; i++)
        {
            // A little ridge keeps thin leaves, where x and y go together, from giving wild surfaces.
            normal[i, i] += i == 0 ? 1e-6 : samples.Count * 1e-3;
            left.AsRow<double>(i)[0] = 0;
            for (int j = 0; j < terms; j++)
            {
                left.AsRow<double>(i)[j] = normal[i, j];
            }

            right.AsRow<double>(i)[0] = target[i];
        }

        using Mat solution = new();
        Cv2.Solve(left, right, solution, DecompTypes.SVD);
        double[] result = new double[6];
        for (int i = 0; i < terms; i++)
        {
            result[i] = solution.AsRow<double>(i)[0];
        }

        return result;
    }

    private static void Terms(double u, double v, double[] row)
    {
        row[0] = 1;
        row[1] = u;
        row[2] = v;
        row[3] = u * u;
        row[4] = u * v;
        row[5] = v * v;
    }

    private static double Value(double[] c, double u, double v)
        => c[0] + (c[1] * u) + (c[2] * v) + (c[3] * u * u) + (c[4] * u * v) + (c[5] * v * v);

    private static double Centred(int at, int length) => length > 1 ? (2.0 * at / (length - 1)) - 1 : 0;

    private static double[] Constant(double value) => [value, 0, 0, 0, 0, 0];

    private static double Median(IEnumerable<double> values)
    {
        double[] all = values.ToArray();
        return all.Length == 0 ? 0 : Ranked.At(all, all.Length / 2);
    }

    private readonly record struct Sample(double U, double V, double Rg, double Bg);
}
