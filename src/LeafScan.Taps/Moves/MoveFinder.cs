using LeafScan.Taps.Lining;
using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps.Moves;

/// <summary>What happened to the specks between two photos.</summary>
/// <param name="Links">Specks seen in both.</param>
/// <param name="Gone">Numbers of first spots that vanished.</param>
/// <param name="Come">Numbers of second spots that appeared.</param>
/// <param name="Unseen">Numbers of first spots whose place is not seen in the second photo.</param>
/// <param name="Wind">Way that many specks moved alike, pixels; null when there was none.</param>
internal sealed record ShotMoves(IReadOnlyList<Link> Links, IReadOnlyList<int> Gone, IReadOnlyList<int> Come, IReadOnlyList<int> Unseen, Point2d? Wind);

/// <summary>
/// Tells what lay still from what moved. A speck lies still when its place is as dark in the other photo as in its own,
/// whether or not it was found there: so a faint one that is missed once never looks like a walker. What is left over in
/// both photos is paired within the reach of a mite, then within that of a predator.
/// </summary>
internal static class MoveFinder
{
    // A share of its shade that says "still there" and one that says "surely gone".
    private const double StillShare = 0.5;
    private const double NearStillShare = 0.75;

    // A mite of 0.6 times its length in width is rounder than this even when it is sharp; a piece of thread is not.
    private const double RoundMost = 1.9;
    private const double RunChanceMost = 0.15;
    private const double WindyChanceMost = 0.5;
    private const double MiteLikeness = 0.55;
    private const double WindyLikeness = 0.35;
    private const double PredatorLikeness = 0.4;

    /// <summary>Compares two photos.</summary>
    public static ShotMoves Find(ShotPair pair, MoveLimits limits, TapOptions options)
    {
        List<Link> links = [];
        HashSet<int> first = [.. Enumerable.Range(0, pair.First.Count)];
        HashSet<int> second = [.. Enumerable.Range(0, pair.Second.Count)];
        Still(pair, limits, links, first, second);
        ShortWays(pair, limits, options, links, first, second);
        List<int> unseen = StillThere(pair, links, first, second);
        Point2d? wind = Wind.Find(pair, limits, first, second, links);
        Walks(pair, limits, options, links, first, second, wind is null ? MiteLikeness : WindyLikeness, LinkKind.Crawled);
        Walks(pair, limits, options, links, first, second, PredatorLikeness, LinkKind.Ran);
        wind = Wind.Reconsider(pair, links, wind);
        if (wind is not null)
        {
            // A grain that was blown from beside another leaves a pair that seems to have shifted, but is lighter than before.
            links.RemoveAll(l => l.Kind == LinkKind.Crawled && Unlike(pair, pair.First[l.A], pair.Second[l.B]) > WindyLikeness);
        }

        return new ShotMoves(links, [.. first.Order()], [.. second.Order()], unseen, wind);
    }

    private static void Still(ShotPair pair, MoveLimits limits, List<Link> links, HashSet<int> first, HashSet<int> second)
    {
        foreach ((int a, int b) in SpotPairs.Mutual(pair.First, pair.Second, pair.Alignment.Map, Math.Max(6, 2 * limits.LeastPx) * pair.ZoomToSecond))
        {
            double way = Way(pair, a, b);
            double slack = limits.LeastPx + (pair.First[a].Coarse ? 2 + (0.3 * pair.First[a].Long) : 0);
            if (way <= slack)
            {
                links.Add(new Link(a, b, 0, LinkKind.Still));
                first.Remove(a);
                second.Remove(b);
            }
        }
    }

    // A slow mite is still within its own old outline: then both places must have lost or won shade.
    private static void ShortWays(ShotPair pair, MoveLimits limits, TapOptions options, List<Link> links, HashSet<int> first, HashSet<int> second)
    {
        List<(int A, int B)> near = SpotPairs.Mutual(pair.First, pair.Second, pair.Alignment.Map, Math.Max(6, 2 * limits.LeastPx) * pair.ZoomToSecond);
        foreach ((int a, int b) in near.Where(p => first.Contains(p.A) && second.Contains(p.B)))
        {
            Spot from = pair.First[a];
            Spot to = pair.Second[b];
            if (Walker(pair, options, from, to, MiteLikeness)
                && Way(pair, a, b) > Math.Max(limits.LeastPx, 0.3 * from.DiameterPx)
                && pair.LeftOfFirst(from) < NearStillShare && pair.ThereBefore(to) < NearStillShare)
            {
                links.Add(new Link(a, b, Way(pair, a, b), LinkKind.Crawled));
                first.Remove(a);
                second.Remove(b);
            }
        }
    }

    private static List<int> StillThere(ShotPair pair, List<Link> links, HashSet<int> first, HashSet<int> second)
    {
        List<int> unseen = [];
        foreach (int a in first.Order().ToList())
        {
            double? left = pair.LeftOfFirst(pair.First[a]);
            if (left is null)
            {
                unseen.Add(a);
                first.Remove(a);
            }
            else if (left >= StillShare || pair.First[a].Coarse)
            {
                links.Add(new Link(a, -1, 0, LinkKind.Still));
                first.Remove(a);
            }
        }

        foreach (int b in second.Order().ToList())
        {
            double? before = pair.ThereBefore(pair.Second[b]);
            if (before is null || before >= StillShare || pair.Second[b].Coarse)
            {
                second.Remove(b);
            }
        }

        return unseen;
    }

    private static void Walks(
        ShotPair pair, MoveLimits limits, TapOptions options, List<Link> links, HashSet<int> first, HashSet<int> second, double likeness, LinkKind kind)
    {
        List<(int A, int B, double Cost)> possible = [];
        foreach (int a in first)
        {
            Spot from = pair.First[a];
            double reach = kind == LinkKind.Ran ? limits.PredatorReach(from.DiameterPx) : limits.MiteReach(from.DiameterPx);
            double miteReach = limits.MiteReach(from.DiameterPx);
            foreach (int b in second)
            {
                double way = Way(pair, a, b);
                if (way <= reach && (kind != LinkKind.Ran || way > miteReach) && Walker(pair, options, from, pair.Second[b], likeness))
                {
                    double unlike = Unlike(pair, from, pair.Second[b]) / likeness;
                    possible.Add((a, b, (way / reach * (way / reach)) + (unlike * unlike)));
                }
            }
        }

        // Far from where it was, any newcomer may fit by chance: with wind and for fast things it must be the only one that does.
        double crowd = Math.PI * (second.Count - 1) / pair.JudgedPx;
        foreach ((int a, int b, double _) in possible.OrderBy(p => p.Cost))
        {
            if (first.Contains(a) && second.Contains(b) && crowd * Way(pair, a, b) * Way(pair, a, b) < (kind == LinkKind.Ran ? RunChanceMost : likeness < MiteLikeness ? WindyChanceMost : 1))
            {
                links.Add(new Link(a, b, Way(pair, a, b), kind));
                first.Remove(a);
                second.Remove(b);
            }
        }
    }

    /// <summary>Way between two spots, pixels of the first photo.</summary>
    public static double Way(ShotPair pair, int a, int b)
    {
        double dx = pair.SecondPlaces[b].X - pair.First[a].X;
        double dy = pair.SecondPlaces[b].Y - pair.First[a].Y;
        return Math.Sqrt((dx * dx) + (dy * dy));
    }

    private static bool Walker(ShotPair pair, TapOptions options, Spot from, Spot to, double likeness) =>
        CouldWalk(from, pair.FirstNoise, options) && CouldWalk(to, pair.SecondNoise, options) && Unlike(pair, from, to) < likeness;

    /// <summary>True for a spot that is round, small and dark enough for a walker.</summary>
    public static bool CouldWalk(Spot spot, TapShot shot, TapOptions options) => CouldWalk(spot, shot.Map.Noise, options);

    private static bool CouldWalk(Spot spot, double noise, TapOptions options) =>
        !spot.Coarse && spot.Long < RoundMost * spot.Short && spot.Peak > options.CrawlerShade(noise);

    private static double Unlike(ShotPair pair, Spot from, Spot to) => Math.Abs(Math.Log(pair.MassInFirst(to) / from.Mass));
}
