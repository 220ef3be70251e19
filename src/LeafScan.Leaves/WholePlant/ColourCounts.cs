namespace LeafScan.Leaves.WholePlant;

/// <summary>How often each colour occurs: cells of ln(R/G), ln(B/G) and level, smoothed, with a little for colours never seen.</summary>
internal sealed class ColourCounts
{
    private const int Side = 20;
    private const double Unseen = 0.01;

    private float[] _counts = new float[Side * Side * Side];

    /// <summary>Cell of a colour.</summary>
    public static int Cell(float redToGreen, float blueToGreen, float level)
        => (((Part(redToGreen, -1.2f, 2.4f) * Side) + Part(blueToGreen, -2.2f, 2.8f)) * Side) + Part(level, -5, 5);

    /// <summary>Cell of a pair of strengths of detail, see <see cref="Needles.Sharpness"/>.</summary>
    public static int DetailCell(float fine, float coarse)
        => (((Part(MathF.Log(fine + 1e-4f), -5.5f, 5) * Side) + Part(MathF.Log(coarse + 1e-4f), -5.5f, 5)) * Side) + (Side / 2);

    /// <summary>Sum of all weights.</summary>
    public double Total => _counts.Sum(c => (double)c);

    /// <summary>Counts one pixel.</summary>
    public void Add(int cell, float weight) => _counts[cell] += weight;

    /// <summary>Adds other counts, times a weight.</summary>
    public void Add(ColourCounts other, float weight)
    {
        for (int i = 0; i < _counts.Length; i++)
        {
            _counts[i] += weight * other._counts[i];
        }
    }

    /// <summary>Smooths over neighbouring cells and gives the logarithm of the share of each cell.</summary>
    public float[] Logs()
    {
        for (int step = 1; step < _counts.Length; step *= Side)
        {
            _counts = Smooth(_counts, step);
        }

        double total = Math.Max(1e-9, Total);
        return Array.ConvertAll(_counts, c => (float)Math.Log((c + (Unseen * total / _counts.Length)) / ((1 + Unseen) * total)));
    }

    // A quarter of each count to either neighbour along one axis.
    private static float[] Smooth(float[] counts, int step)
    {
        float[] smooth = new float[counts.Length];
        for (int i = 0; i < counts.Length; i++)
        {
            int place = i / step % Side;
            smooth[i] = (0.5f * counts[i]) + (0.25f * ((place > 0 ? counts[i - step] : 0) + (place < Side - 1 ? counts[i + step] : 0)));
        }

        return smooth;
    }

    private static int Part(float value, float low, float range) => Math.Clamp((int)((value - low) / range * Side), 0, Side - 1);
}
