using OpenCvSharp;

namespace LeafScan.Taps.Moves;

/// <summary>
/// Finds the breath of wind: many leftover specks that moved by nearly the same way. Mites choose their own directions,
/// so the opposite way would be as common; it is what the number is compared with.
/// </summary>
internal static class Wind
{
    private const int LeastAlike = 6;
    private const double ShareAlike = 0.3;
    private const int MostLeft = 1500;

    /// <summary>Looks for it, links what was blown and takes it out of the sets.</summary>
    /// <returns>The common way in pixels of the first photo; null when there was none.</returns>
    public static Point2d? Find(ShotPair pair, MoveLimits limits, HashSet<int> first, HashSet<int> second, List<Link> links)
    {
        if (Math.Min(first.Count, second.Count) < LeastAlike || Math.Max(first.Count, second.Count) > MostLeft)
        {
            return null;
        }

        List<(int A, int B, Point2d Way)> ways = Ways(pair, limits, first, second);
        (Point2d way, int count) = Commonest(ways);
        int opposite = ways.Count(w => Alike(w.Way, new Point2d(-way.X, -way.Y)));
        if (count < Math.Max(LeastAlike, ShareAlike * Math.Min(first.Count, second.Count)) || count < (3 * opposite) + 3)
        {
            return null;
        }

        foreach ((int a, int b, Point2d own) in ways.Where(w => Alike(w.Way, way)).OrderBy(w => Distance(w.Way, way)))
        {
            if (first.Contains(a) && second.Contains(b))
            {
                links.Add(new Link(a, b, Distance(own, default), LinkKind.Blown));
                first.Remove(a);
                second.Remove(b);
            }
        }

        return way;
    }

    private static List<(int A, int B, Point2d Way)> Ways(ShotPair pair, MoveLimits limits, HashSet<int> first, HashSet<int> second)
    {
        List<(int A, int B, Point2d Way)> ways = [];
        foreach (int a in first)
        {
            Spots.Spot from = pair.First[a];
            double reach = limits.PredatorReach(Math.Max(from.DiameterPx, 4));
            foreach (int b in second)
            {
                Point2d way = new(pair.SecondPlaces[b].X - from.X, pair.SecondPlaces[b].Y - from.Y);
                double ratio = pair.MassInFirst(pair.Second[b]) / from.Mass;
                if (ratio is > 0.5 and < 2 && Distance(way, default) <= reach)
                {
                    ways.Add((a, b, way));
                }
            }
        }

        return ways;
    }

    private static (Point2d Way, int Count) Commonest(List<(int A, int B, Point2d Way)> ways)
    {
        Point2d best = default;
        int most = 0;

        // Too many pairs are thinned evenly: the commonest way is still the commonest.
        int step = Math.Max(1, ways.Count / 1500);
        for (int i = 0; i < ways.Count; i += step)
        {
            int count = 0;
            foreach ((int _, int _, Point2d way) in ways)
            {
                count += Alike(way, ways[i].Way) ? 1 : 0;
            }

            if (count > most)
            {
                (best, most) = (ways[i].Way, count);
            }
        }

        return (best, most);
    }

    private static bool Alike(Point2d way, Point2d other) => Distance(way, other) <= 1 + (0.15 * Distance(other, default));

    private static double Distance(Point2d a, Point2d b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));
}
