using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Seasons;

/// <summary>Draws clumped counts.</summary>
internal static class Counts
{
    /// <summary>A count with this mean and clumping k: a Poisson count whose mean is itself a gamma of shape k, for whole k.</summary>
    public static int NegativeBinomial(double mean, int clumping, Random random)
    {
        double gamma = 0;
        for (int i = 0; i < clumping; i++)
        {
            gamma -= Math.Log(1 - random.NextDouble());
        }

        return Poisson(mean * gamma / clumping, random);
    }

    private static int Poisson(double mean, Random random)
    {
        if (mean > 40)
        {
            return Math.Max(0, (int)Math.Round(mean + (Math.Sqrt(mean) * random.Normal())));
        }

        // Products of even draws (Knuth, The Art of Computer Programming, volume 2).
        double limit = Math.Exp(-mean);
        int count = -1;
        for (double product = 1; product > limit; product *= random.NextDouble())
        {
            count++;
        }

        return Math.Max(0, count);
    }
}
