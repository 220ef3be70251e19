using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks.Judge;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Specks;

/// <summary>A square of plain leaf onto which light is mixed, with a network's answer that takes everything for sound.</summary>
internal sealed class JudgedPatch : IDisposable
{
    public const int Side = 96;

    // Linear light of the leaf: red, green, blue.
    private static readonly double[] Leaf = [0.10, 0.20, 0.06];

    private readonly float[] _classes = new float[TissueScores.Classes * Side * Side];
    private readonly float[] _centres = new float[Side * Side];
    private readonly float[] _diameters = new float[Side * Side];
    private readonly double[,,] _light = new double[Side, Side, 3];

    public JudgedPatch()
    {
        for (int y = 0; y < Side; y++)
        {
            for (int x = 0; x < Side; x++)
            {
                for (int k = 0; k < 3; k++)
                {
                    _light[y, x, k] = Leaf[k];
                }

                _classes[(TissueScores.Sound * Side * Side) + (y * Side) + x] = 2;
            }
        }

        Codes = new Mat(Side, Side, MatType.CV_8UC1, Scalar.All((int)MaskCode.Sound));
    }

    public Mat Codes { get; }

    /// <summary>Mixes light of one colour over a disc, or over a line across the patch.</summary>
    public JudgedPatch Mix(double cx, double cy, double diameter, double[] light, double share, bool line = false)
    {
        for (int y = 0; y < Side; y++)
        {
            for (int x = 0; x < Side; x++)
            {
                double far = line ? Math.Abs(y - cy) : Math.Sqrt(((x - cx) * (x - cx)) + ((y - cy) * (y - cy)));
                for (int k = 0; k < 3 && far <= diameter / 2; k++)
                {
                    _light[y, x, k] += share * (light[k] - _light[y, x, k]);
                }
            }
        }

        _centres[((int)cy * Side) + (int)cx] = 0.5f;
        _diameters[((int)cy * Side) + (int)cx] = (float)diameter;
        return this;
    }

    /// <summary>All candidates, left to right.</summary>
    public List<SpeckCandidate> Candidates()
    {
        Mat bgr = new(Side, Side, MatType.CV_8UC3);
        for (int y = 0; y < Side; y++)
        {
            Span<Vec3b> row = bgr.AsRow<Vec3b>(y);
            for (int x = 0; x < Side; x++)
            {
                row[x] = new Vec3b(Srgb(_light[y, x, 2]), Srgb(_light[y, x, 1]), Srgb(_light[y, x, 0]));
            }
        }

        using LeafPatch patch = LeafPatch.Of(new Rect(0, 0, Side, Side), bgr, new Mat(Side, Side, MatType.CV_8UC1, Scalar.All(255)));
        using ColourFinding colour = ColourFinding.Of(patch, new());
        using CandidateSet set = CandidateSet.Of(patch, colour, new TissueScores(_classes, _centres, _diameters, new Size(Side, Side), new Rect(0, 0, Side, Side)), Codes, new());
        return [.. set.Candidates.OrderBy(c => c.Mark.X)];
    }

    public void Dispose() => Codes.Dispose();

    private static byte Srgb(double linear)
        => (byte)Math.Round(255 * (linear <= 0.0031308 ? linear * 12.92 : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055));
}
