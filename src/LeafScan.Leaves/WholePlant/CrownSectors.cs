using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>Sums over the six sectors of a plant: left and right half, high, middle and low third of its full outline.</summary>
internal sealed class CrownSectors
{
    private static readonly string[] Sides = ["left", "right"];
    private static readonly string[] Heights = ["high", "middle", "low"];

    // Heights at which both sides are compared.
    private const int Strips = 12;

    // A height stands out when it differs by at least this much of its full area, and by half of what the worse side has.
    private const double LeastDifference = 0.05;
    private const double LeastShareOfWorse = 0.5;

    private readonly long[,] _full = new long[2, 3];
    private readonly long[,] _foliage = new long[2, 3];
    private readonly long[,] _judged = new long[2, 3];
    private readonly long[,] _hurt = new long[2, 3];
    private readonly double[,] _green = new double[2, 3];
    private readonly long[,,] _strips = new long[Strips, 2, 3];
    private readonly GapRule _gaps;

    /// <summary>Counts.</summary>
    /// <param name="bgr">Working copy.</param>
    /// <param name="codes"><see cref="MaskCode"/>.</param>
    /// <param name="full">255 inside the full outline.</param>
    /// <param name="gaps">How missing foliage follows from both.</param>
    public CrownSectors(Mat bgr, Mat codes, Mat full, GapRule gaps)
    {
        _gaps = gaps;
        Rect box = Cv2.BoundingRect(full);
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> code = codes.AsRow<byte>(y);
            ReadOnlySpan<byte> inside = full.AsRow<byte>(y);
            ReadOnlySpan<Vec3b> pixels = bgr.AsRow<Vec3b>(y);
            int third = Math.Clamp(3 * (y - box.Top) / Math.Max(1, box.Height), 0, 2);
            int strip = Math.Clamp(Strips * (y - box.Top) / Math.Max(1, box.Height), 0, Strips - 1);
            for (int x = 0; x < code.Length; x++)
            {
                int side = 2 * (x - box.Left) < box.Width ? 0 : 1;
                _full[side, third] += inside[x] != 0 ? 1 : 0;
                _strips[strip, side, 0] += inside[x] != 0 ? 1 : 0;
                if (code[x] == 0)
                {
                    continue;
                }

                bool isHurt = code[x] is (byte)MaskCode.Yellowed or (byte)MaskCode.Browned;
                _strips[strip, side, 1]++;
                _strips[strip, side, 2] += isHurt ? 1 : 0;
                _foliage[side, third]++;
                _judged[side, third] += code[x] == (byte)MaskCode.Unassessed ? 0 : 1;
                _hurt[side, third] += isHurt ? 1 : 0;
                _green[side, third] += ColourIndices.DarkGreen(pixels[x].Item2, pixels[x].Item1, pixels[x].Item0);
            }
        }
    }

    /// <summary>The six sectors, left first, from high to low.</summary>
    public IReadOnlyList<CrownSector> All() =>
    [
        .. from side in Enumerable.Range(0, 2)
           from third in Enumerable.Range(0, 3)
           select new CrownSector(
               Sides[side], Heights[third],
               _judged[side, third] == 0 ? null : _hurt[side, third] / (double)_judged[side, third],
               _gaps(_foliage[side, third], _full[side, third]),
               _foliage[side, third] == 0 ? null : _green[side, third] / _foliage[side, third]),
    ];

    /// <summary>How the halves differ.</summary>
    public SideDifference Halves() => SideDifference.Of([.. Enumerable.Range(0, Strips).Select(strip => (Strip(strip, 0), Strip(strip, 1), (double)(_strips[strip, 0, 0] + _strips[strip, 1, 0])))]);

    /// <summary>high, middle, low or none: the worst third, where it stands out against the other two together.</summary>
    public string WorstHeight()
    {
        double[] harm = [.. Enumerable.Range(0, 3).Select(third => Harm([(0, third), (1, third)]))];
        int worst = Array.IndexOf(harm, harm.Max());
        double others = Harm(Enumerable.Range(0, 3).Where(third => third != worst).SelectMany(third => new[] { (0, third), (1, third) }));
        return StandsOut(harm[worst], others) ? Heights[worst] : "none";
    }

    /// <summary>How unlike the sectors are: spread of their discoloured share over its mean; 0 even, 1 and more patchy.</summary>
    public double Patchiness()
    {
        double[] shares = [.. All().Where(s => s.Discoloured is not null).Select(s => s.Discoloured!.Value)];
        double mean = shares.Length == 0 ? 0 : shares.Average();
        return mean <= 0.005 ? 0 : Math.Sqrt(shares.Average(s => (s - mean) * (s - mean))) / mean;
    }

    private static bool StandsOut(double worse, double other) => worse - other >= LeastDifference && worse - other >= LeastShareOfWorse * worse;

    private double Harm(IEnumerable<(int Side, int Third)> parts)
    {
        (double hurt, double foliage, double full) = (0, 0, 0);
        foreach ((int side, int third) in parts)
        {
            hurt += _hurt[side, third];
            foliage += _foliage[side, third];
            full += _full[side, third];
        }

        return Harm(hurt, foliage, full);
    }

    private double Strip(int strip, int side) => Harm(_strips[strip, side, 2], _strips[strip, side, 1], _strips[strip, side, 0]);

    // What is discoloured stands for its share of the foliage that is left.
    private double Harm(double hurt, double foliage, double full)
    {
        double gone = _gaps(foliage, full);
        return full <= 0 ? 0 : gone + ((1 - gone) * hurt / Math.Max(1, foliage));
    }
}
