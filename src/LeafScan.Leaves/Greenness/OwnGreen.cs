using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>The sound colour of this very twig or plant, as ratios of linear light.</summary>
/// <param name="RedToGreen">ln(R/G) of its greenest frequent colour.</param>
/// <param name="BlueToGreen">ln(B/G) of the same pixels.</param>
/// <param name="Scatter">How far sound pixels scatter around it, ln units.</param>
/// <param name="Unsure">Hardly anything looks green, so the colour is a guess.</param>
internal sealed record OwnGreen(double RedToGreen, double BlueToGreen, double Scatter, bool Unsure)
{
    private const double Low = -1.6;
    private const double High = 0.8;
    private const int Cells = 200;

    // A colour redder than this is taken for no foliage's own green, and the guess below stands in for it.
    private const double ReddestSound = 0.08;
    private const double GuessRedToGreen = -0.35;
    private const double GuessBlueToGreen = -1;

    // A greener peak counts as the sound colour from this share of the highest peak on.
    private const double LeastPeak = 0.3;

    /// <summary>
    /// Finds it: among pixels that are neither in deep shade nor shining, the lowest frequent ln(R/G). Damage and dead
    /// tissue only raise that ratio, and nothing but deeper green lowers it.
    /// </summary>
    /// <param name="planes">Colour.</param>
    /// <param name="inside">8-bit, not 0 on foliage.</param>
    public static OwnGreen Find(ColourPlanes planes, Mat inside)
    {
        using Mat core = new();
        Cv2.Erode(inside, core, null);
        if (Cv2.CountNonZero(core) < 200)
        {
            inside.CopyTo(core);
        }

        double[] level = Spread.Ranks(planes.Level, core, -6, 1, 0.25, 0.97);
        using Mat lit = new();
        Cv2.InRange(planes.Level, new Scalar(level[0]), new Scalar(level[1]), lit);
        Cv2.BitwiseAnd(lit, core, lit);
        double[] counts = Smoothed(Spread.Histogram(planes.RedToGreen, lit, Low, High, Cells));
        int peak = FirstPeak(counts);
        double own = Low + ((peak + 0.5) * (High - Low) / Cells);
        if (own > ReddestSound)
        {
            return new OwnGreen(GuessRedToGreen, GuessBlueToGreen, 0.12, true);
        }

        using Mat near = new();
        Cv2.InRange(planes.RedToGreen, new Scalar(own - 0.1), new Scalar(own + 0.1), near);
        Cv2.BitwiseAnd(near, lit, near);
        double blue = Spread.Ranks(planes.BlueToGreen, near, -4, 1, 0.5)[0];
        double nearShare = Cv2.CountNonZero(near) / (double)Math.Max(1, Cv2.CountNonZero(lit));
        return new OwnGreen(own, blue, Scattered(counts, peak), nearShare < 0.08);
    }

    private static int FirstPeak(double[] counts)
    {
        double most = counts.Max();
        for (int i = 1; i < counts.Length - 1; i++)
        {
            if (counts[i] >= counts[i - 1] && counts[i] >= counts[i + 1] && counts[i] >= LeastPeak * most && counts[i] > 0)
            {
                return i;
            }
        }

        return Array.IndexOf(counts, most);
    }

    // Only the green side of the peak: damage lies on the other.
    private static double Scattered(double[] counts, int peak)
    {
        double all = 0;
        double squares = 0;
        for (int i = 0; i <= peak; i++)
        {
            double off = (peak - i) * (High - Low) / Cells;
            all += counts[i];
            squares += counts[i] * Math.Min(off * off, 0.09);
        }

        return all <= 0 ? 0.1 : Math.Sqrt(squares / all);
    }

    private static double[] Smoothed(int[] counts)
    {
        using Mat row = new(1, counts.Length, MatType.CV_32FC1);
        Span<float> values = row.AsRow<float>(0);
        for (int i = 0; i < counts.Length; i++)
        {
            values[i] = counts[i];
        }

        Cv2.GaussianBlur(row, row, new Size(17, 1), 2.5, 1, BorderTypes.Constant);
        double[] smooth = new double[counts.Length];
        for (int i = 0; i < smooth.Length; i++)
        {
            smooth[i] = row.AsRow<float>(0)[i];
        }

        return smooth;
    }
}
