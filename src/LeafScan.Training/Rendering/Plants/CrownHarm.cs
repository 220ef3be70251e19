using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>What is wrong with a tuft.</summary>
internal enum TuftState
{
    Sound,
    Fresh,
    Fall,
    Yellow,
    Brown,
    Lost,
}

/// <summary>Spreads damage over a crown: patches, one side, the lower part; our own model of mite damage seen from a distance.</summary>
internal static class CrownHarm
{
    // Where leaves fall, nearly all of them do: single tufts missing elsewhere would not show between the others.
    private const double Fallen = 0.93;

    public static TuftState[] Spread(PlantSpec spec, IReadOnlyList<Tuft> tufts, bool evergreen)
    {
        PlantDamage damage = spec.Damage;
        Random random = new(damage.Seed);
        (double Around, double Height)[] patches = [.. Enumerable.Range(0, 6).Select(_ => (random.Between(-1, 1), random.NextDouble()))];
        double sign = damage.Side switch { PlantSide.Left => -1, PlantSide.Right => 1, _ => 0 };
        double[] rank = Ranks([.. tufts.Select(t => Load(t) + (0.4 * random.Normal()))]);
        double[] bare = Ranks([.. tufts.Select(t => Load(t) + (0.06 * random.Normal()))]);
        double[] chance = [.. tufts.Select(_ => random.NextDouble())];
        double[] other = [.. tufts.Select(_ => random.NextDouble())];
        var states = new TuftState[tufts.Count];
        for (int i = 0; i < states.Length; i++)
        {
            Tuft tuft = tufts[i];
            bool lost = bare[i] < damage.LostShare / Fallen && chance[i] < Fallen;
            states[i] = lost ? TuftState.Lost
                : rank[i] < damage.LostShare + damage.BrownShare ? TuftState.Brown
                : rank[i] < damage.LostShare + damage.BrownShare + damage.YellowShare ? TuftState.Yellow
                : !evergreen && other[i] < spec.FallShare ? TuftState.Fall
                : tuft.Out > 0.9 && other[i] > 1 - spec.Flush ? TuftState.Fresh
                : TuftState.Sound;
        }

        return states;

        double Load(Tuft tuft)
        {
            double patchy = patches.Max(p => Math.Exp(-(Math.Pow((tuft.Around - p.Around) / 0.35, 2) + Math.Pow((tuft.Height - p.Height) / 0.22, 2))));
            return patchy + (2.2 * damage.SideStrength * sign * tuft.Around) + (1.4 * damage.LowStrength * (1 - tuft.Height));
        }
    }

    private static double[] Ranks(double[] load)
    {
        int[] order = [.. Enumerable.Range(0, load.Length).OrderByDescending(i => load[i])];
        var rank = new double[load.Length];
        for (int place = 0; place < order.Length; place++)
        {
            rank[order[place]] = (double)place / order.Length;
        }

        return rank;
    }
}
