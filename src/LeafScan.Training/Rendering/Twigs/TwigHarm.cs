using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>One speck on a leaf of a twig.</summary>
/// <param name="Along">Place along the leaf, 0 base to 1 tip.</param>
/// <param name="Across">Place across it in mm from its middle line.</param>
/// <param name="DiameterMm">Diameter in mm of the disc of its area.</param>
/// <param name="Stretch">Length along the leaf over width across it, 1 or more.</param>
/// <param name="Strength">Mixing with the bleached colour, 0..1.</param>
internal readonly record struct LeafSpeck(double Along, double Across, double DiameterMm, double Stretch, double Strength);

/// <summary>What is wrong with one leaf of a twig; parts are from and to along the leaf, 0 base to 1 tip.</summary>
internal sealed record LeafHarm(bool Lost, (double From, double To) Yellow, (double From, double To) Brown, IReadOnlyList<LeafSpeck> Specks)
{
    public static LeafHarm None { get; } = new(false, (0, 0), (0, 0), []);
}

/// <summary>
/// Spreads the damage over the leaves. Mites sit in a few colonies on old inner foliage and start at the base of a needle
/// (Penn State and Oregon State extension pages on spruce spider mite); colonies and their reach are our own model.
/// </summary>
internal static class TwigHarm
{
    public static LeafHarm[] Spread(IReadOnlyList<TwigLeaf> leaves, double twigMm, TwigDamage damage)
    {
        Random random = new(damage.Seed);
        Point2d[] colonies = [.. Enumerable.Range(0, random.Next(2, 5)).Select(_ => leaves[Old(leaves, random)].At)];
        double reach = twigMm * random.Between(0.12, 0.3);
        double[] load = [.. leaves.Select(leaf => Load(leaf, colonies, reach) * (0.8 + (0.4 * random.NextDouble())))];
        double[] rank = Ranks(damage.Pattern == TwigPattern.Tips ? [.. leaves.Select(leaf => 1 / (2 + leaf.FromEndMm) * (0.7 + (0.6 * random.NextDouble())))] : load);
        var harm = new LeafHarm[leaves.Count];
        for (int i = 0; i < harm.Length; i++)
        {
            // Every leaf draws the same number of values whatever is wrong, so that a month later only more is wrong.
            Random own = random.Split();
            bool lost = rank[i] < damage.LostShare * 1.6 && own.Hit(0.62);
            bool dead = rank[i] < damage.LostShare + damage.BrownShare;
            bool pale = rank[i] < damage.LostShare + damage.BrownShare + damage.YellowShare;
            double part = own.Between(0.75, 1.2);
            (double From, double To) brown = dead ? Part(damage.Pattern, part, own) : (0, 0);
            (double From, double To) yellow = dead || !pale ? (0, 0) : Part(damage.Pattern, part, own);
            harm[i] = new LeafHarm(lost, yellow, brown, Specks(leaves[i], damage, load[i], own.Split()));
        }

        return harm;
    }

    private static (double From, double To) Part(TwigPattern pattern, double part, Random random)
    {
        double place = random.NextDouble();
        return pattern switch
        {
            TwigPattern.Tips => (1 - (0.5 * part * (0.4 + (0.6 * place))), 1),
            TwigPattern.Bands => (0.15 + (0.5 * place), 0.15 + (0.5 * place) + (0.2 * part)),
            _ => (0, Math.Min(1, part)),
        };
    }

    private static List<LeafSpeck> Specks(TwigLeaf leaf, TwigDamage damage, double load, Random random)
    {
        List<LeafSpeck> specks = [];
        double expected = damage.SpecksPerMm * leaf.LengthMm * Math.Clamp(load, 0, 1);
        int count = (int)(expected + random.NextDouble());
        for (int i = 0; i < count; i++)
        {
            double along = 0.04 + (0.9 * Math.Pow(random.NextDouble(), 1.5));
            double half = leaf.HalfWidthAt(along);
            double diameter = Math.Min(random.LogNormal(damage.SpeckMm, 0.35), 1.2 * half);
            double room = Math.Max(0, half - (0.5 * diameter));
            specks.Add(new LeafSpeck(along, room * random.Between(-1, 1), diameter, random.Between(1, 1.9), Math.Clamp(damage.SpeckStrength * random.Between(0.35, 1.1), 0.15, 1)));
        }

        return specks;
    }

    private static double Load(TwigLeaf leaf, Point2d[] colonies, double reach)
    {
        double nearest = colonies.Min(c => (c - leaf.At).DotProduct(c - leaf.At));
        return Math.Exp(-nearest / (2 * reach * reach)) * (1.1 - (0.6 * leaf.Age));
    }

    // The oldest of three draws.
    private static int Old(IReadOnlyList<TwigLeaf> leaves, Random random)
        => Enumerable.Range(0, 3).Select(_ => random.Next(leaves.Count)).MinBy(i => leaves[i].Age);

    // 0 for the hardest hit, towards 1 for the least.
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
