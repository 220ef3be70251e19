using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>How often each ln(R/G) occurs, smoothed, and where its peaks are.</summary>
internal sealed class PeakCounts
{
    private const double Low = -1.6;
    private const double High = 0.8;
    private const int Cells = 200;
    private const double Cell = (High - Low) / Cells;

    // A greener peak counts from this share of the highest one on; and the counts between it and a higher one fall to this.
    private const double LeastHeight = 0.3;
    private const double DeepestValley = 0.8;

    // A peak's own width to either side, cells: 0.1 in ln units.
    private const int Reach = 8;

    private readonly double[] _counts;
    private readonly double _all;

    private PeakCounts(double[] counts)
    {
        _counts = counts;
        _all = counts.Sum();
    }

    /// <summary>Counts a plane.</summary>
    /// <param name="redToGreen">ln(R/G).</param>
    /// <param name="inside">8-bit, not 0 where a pixel counts.</param>
    public static PeakCounts Of(Mat redToGreen, Mat inside)
    {
        int[] counts = Spread.Histogram(redToGreen, inside, Low, High, Cells);
        using Mat row = new(1, Cells, MatType.CV_32FC1);
        Span<float> values = row.AsRow<float>(0);
        for (int i = 0; i < Cells; i++)
        {
            values[i] = counts[i];
        }

        Cv2.GaussianBlur(row, row, new Size(17, 1), 2.5, 1, BorderTypes.Constant);
        return new PeakCounts([.. row.AsRow<float>(0).ToArray().Select(v => (double)v)]);
    }

    /// <summary>ln(R/G) of a cell.</summary>
    public static double Value(int cell) => Low + ((cell + 0.5) * Cell);

    /// <summary>The lowest peak below a value; null without one that stands by itself.</summary>
    /// <param name="below">ln(R/G).</param>
    /// <param name="leastShare">Least share of all pixels around the peak, 0..1.</param>
    public int? FirstPeak(double below, double leastShare)
    {
        int end = (int)((below - Low) / Cell);
        double most = _counts.Take(end).Max();
        for (int i = 1; i < end; i++)
        {
            double near = _counts.Skip(i - Reach).Take((2 * Reach) + 1).Sum();
            if (IsPeak(i, most) && near >= leastShare * _all && HasValley(i))
            {
                return i;
            }
        }

        return null;
    }

    /// <summary>The lowest peak of all; the most frequent value without any.</summary>
    public int FirstPeakOfAll()
    {
        double most = _counts.Max();
        int peak = Enumerable.Range(1, Cells - 2).FirstOrDefault(i => IsPeak(i, most));
        return peak > 0 ? peak : Array.IndexOf(_counts, most);
    }

    /// <summary>Spread of the values below a peak around it, ln units: damage lies above.</summary>
    public double ScatterBelow(int peak)
    {
        double all = 0;
        double squares = 0;
        for (int i = 0; i <= peak; i++)
        {
            double off = (peak - i) * Cell;
            all += _counts[i];
            squares += _counts[i] * Math.Min(off * off, 0.09);
        }

        return all <= 0 ? 0.1 : Math.Sqrt(squares / all);
    }

    private bool IsPeak(int i, double most)
        => _counts[i] >= _counts[i - 1] && _counts[i] >= _counts[i + 1] && _counts[i] >= LeastHeight * most && _counts[i] > 0;

    // A ripple on the slope of a higher peak is none of its own.
    private bool HasValley(int peak)
    {
        double lowest = _counts[peak];
        for (int i = peak + 1; i < Cells; i++)
        {
            if (_counts[i] > _counts[peak] * 1.001)
            {
                return lowest <= DeepestValley * _counts[peak];
            }

            lowest = Math.Min(lowest, _counts[i]);
        }

        return true;
    }
}
