using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>
/// Where in the frame the plant stands, roughly: a graph cut whose pixels lean by their place in the frame, by colour and by
/// how fine and how coarse their detail is, against the surroundings at the same height. A part whose colour is that of lawn
/// or neighbour then stays with the plant, by its detail and by what it hangs on.
/// </summary>
internal sealed class CrownRegion
{
    private const int Rounds = 3;
    private const int Bands = 12;

    // How much colour and detail say against each other, and the most that each may say, ln odds.
    private const float ColourWeight = 0.8f;
    private const float DetailWeight = 0.6f;
    private const float Most = 3;

    // What is around at any height counts at each as this share of what is around there.
    private const double Shared = 0.4;

    // From where on the first guess is believed when it says no, squares of the plant's usual half sizes.
    private const double SurelyOff = 1.3;

    // What parting two neighbours costs at least, and at most where they look alike.
    private const float LeastBond = 0.3f;
    private const float MostBond = 4;

    // The plant's middle and its usual half sizes, shares of the frame.
    private const double Middle = 0.56;
    private const double HalfWidth = 0.26;
    private const double HalfHeight = 0.36;

    private readonly int _cols;
    private readonly int _rows;
    private readonly int[] _colour;
    private readonly int[] _detail;
    private readonly float[] _place;
    private readonly float[] _right;
    private readonly float[] _below;

    private CrownRegion(ColourPlanes planes, Mat fine, Mat coarse)
    {
        (_cols, _rows) = (planes.Size.Width, planes.Size.Height);
        _colour = new int[_cols * _rows];
        _detail = new int[_cols * _rows];
        _place = new float[_cols * _rows];
        _right = new float[_cols * _rows];
        _below = new float[_cols * _rows];
        for (int y = 0; y < _rows; y++)
        {
            ReadOnlySpan<float> r = planes.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> b = planes.BlueToGreen.AsRow<float>(y);
            ReadOnlySpan<float> l = planes.Level.AsRow<float>(y);
            ReadOnlySpan<float> f = fine.AsRow<float>(y);
            ReadOnlySpan<float> c = coarse.AsRow<float>(y);
            for (int x = 0; x < _cols; x++)
            {
                int at = (y * _cols) + x;
                _colour[at] = ColourCounts.Cell(r[x], b[x], l[x]);
                _detail[at] = ColourCounts.DetailCell(f[x], c[x]);
                _place[at] = Place(x, y);
            }
        }

        Bond(planes);
    }

    /// <summary>255 on the plant with its gaps, at the size of the planes.</summary>
    /// <param name="planes">A small copy of the photo.</param>
    /// <param name="fine">Strength of its finest detail, 32-bit float, same size.</param>
    /// <param name="coarse">Strength of detail some pixels wide.</param>
    /// <param name="guess">255 where the plant seems to be, same size.</param>
    public static Mat Of(ColourPlanes planes, Mat fine, Mat coarse, Mat guess)
    {
        CrownRegion region = new(planes, fine, coarse);
        (float[] own, float[] around) = region.First(guess);
        bool[] inside = [];
        for (int round = 0; round < Rounds; round++)
        {
            inside = GridCut.Cut(region.Leaning(own, around), region._right, region._below, region._cols);
            own = Array.ConvertAll(inside, i => i ? 1f : 0f);
            around = Array.ConvertAll(inside, i => i ? 0f : 1f);
        }

        Mat mask = new(region._rows, region._cols, MatType.CV_8UC1, Scalar.All(0));
        for (int y = 0; y < region._rows; y++)
        {
            Span<byte> row = mask.AsRow<byte>(y);
            for (int x = 0; x < row.Length; x++)
            {
                row[x] = (byte)(inside[(y * region._cols) + x] ? 255 : 0);
            }
        }

        return mask;
    }

    // Square of the distance from the plant's middle, in its usual half sizes.
    private double Off(int x, int y)
    {
        double across = ((x + 0.5) / _cols) - 0.5;
        double down = ((y + 0.5) / _rows) - Middle;
        return Math.Pow(across / HalfWidth, 2) + Math.Pow(down / HalfHeight, 2);
    }

    private float Place(int x, int y)
    {
        double edge = Math.Min(Math.Min(x, _cols - 1 - x) / (double)_cols, Math.Min(y, _rows - 1 - y) / (double)_rows);
        double off = Math.Sqrt(Off(x, y));
        return (float)(edge < 0.025 ? -20 : Math.Clamp(1.5 * (1 - off), -2.5, 0.8));
    }

    // What the guess leaves out near the middle of the frame may be plant all the same: it counts for neither.
    private (float[] Own, float[] Around) First(Mat guess)
    {
        float[] own = new float[_cols * _rows];
        float[] around = new float[_cols * _rows];
        for (int y = 0; y < _rows; y++)
        {
            ReadOnlySpan<byte> row = guess.AsRow<byte>(y);
            for (int x = 0; x < _cols; x++)
            {
                int at = (y * _cols) + x;
                own[at] = row[x] != 0 ? 1 : 0;
                around[at] = row[x] == 0 && Off(x, y) > SurelyOff ? 1 : 0;
            }
        }

        return (own, around);
    }

    // Bonds to the right and below, weaker over an edge of colour or light (Boykov and Jolly 2001).
    private void Bond(ColourPlanes planes)
    {
        double sum = 0;
        for (int y = 0; y < _rows; y++)
        {
            for (int x = 0; x < _cols; x++)
            {
                int at = (y * _cols) + x;
                _right[at] = x + 1 < _cols ? Unlike(planes, x, y, x + 1, y) : 0;
                _below[at] = y + 1 < _rows ? Unlike(planes, x, y, x, y + 1) : 0;
                sum += _right[at] + _below[at];
            }
        }

        double mean = Math.Max(1e-9, sum / (2 * _right.Length));
        for (int i = 0; i < _right.Length; i++)
        {
            _right[i] = LeastBond + ((MostBond - LeastBond) * (float)Math.Exp(-_right[i] / (2 * mean)));
            _below[i] = LeastBond + ((MostBond - LeastBond) * (float)Math.Exp(-_below[i] / (2 * mean)));
        }
    }

    private static float Unlike(ColourPlanes planes, int x, int y, int nextX, int nextY)
    {
        float red = planes.RedToGreen.AsRow<float>(y)[x] - planes.RedToGreen.AsRow<float>(nextY)[nextX];
        float blue = planes.BlueToGreen.AsRow<float>(y)[x] - planes.BlueToGreen.AsRow<float>(nextY)[nextX];
        float level = 0.5f * (planes.Level.AsRow<float>(y)[x] - planes.Level.AsRow<float>(nextY)[nextX]);
        return (red * red) + (blue * blue) + (level * level);
    }

    private float[] Leaning(float[] own, float[] around)
    {
        float[] leaning = (float[])_place.Clone();
        AddLeaning(leaning, _colour, own, around, ColourWeight);
        AddLeaning(leaning, _detail, own, around, DetailWeight);
        return leaning;
    }

    private void AddLeaning(float[] leaning, int[] cells, float[] own, float[] around, float weight)
    {
        ColourCounts plant = new();
        ColourCounts[] rest = [.. Enumerable.Range(0, Bands).Select(_ => new ColourCounts())];
        for (int i = 0; i < cells.Length; i++)
        {
            plant.Add(cells[i], own[i]);
            if (around[i] > 0)
            {
                (int band, float next) = BandOf(i / _cols);
                rest[band].Add(cells[i], (1 - next) * around[i]);
                rest[Math.Min(Bands - 1, band + 1)].Add(cells[i], next * around[i]);
            }
        }

        Share(rest);

        float[] mine = plant.Logs();
        float[][] others = [.. rest.Select(counts => counts.Total < 20 ? mine : counts.Logs())];
        for (int i = 0; i < cells.Length; i++)
        {
            (int band, float next) = BandOf(i / _cols);
            float other = ((1 - next) * others[band][cells[i]]) + (next * others[Math.Min(Bands - 1, band + 1)][cells[i]]);
            leaning[i] += weight * Math.Clamp(mine[cells[i]] - other, -Most, Most);
        }
    }

    // A neighbour may hide at one height what lies around the plant: some of what is seen at all heights counts at each.
    private static void Share(ColourCounts[] bands)
    {
        ColourCounts all = new();
        foreach (ColourCounts band in bands)
        {
            all.Add(band, 1);
        }

        double most = all.Total;
        foreach (ColourCounts band in bands)
        {
            band.Add(all, (float)(Shared * Math.Max(band.Total, 0.01 * most) / Math.Max(1e-9, most)));
        }
    }

    // The upper of the two bands whose middles a row lies between, and the share of the lower.
    private (int Band, float Next) BandOf(int y)
    {
        float place = Math.Clamp(((y + 0.5f) / _rows * Bands) - 0.5f, 0, Bands - 1);
        int band = (int)place;
        return (band, place - band);
    }
}
