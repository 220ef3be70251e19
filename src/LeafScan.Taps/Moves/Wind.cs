using OpenCvSharp;

namespace LeafScan.Taps.Moves;

/// <summary>
/// Finds the breath of wind: many specks that moved by nearly the same way. Mites choose their own directions, so
/// other ways as long would be as common, and chance pairs spread evenly: the number must stand out of both.
/// </summary>
internal static class Wind
{
    private const int LeastAlike = 6;

    // On a nearly clean sheet three grains are enough when hardly anything else moved.
    private const int FewAlike = 3;
    private const double NearlyAll = 0.75;
    private const double ShareAlike = 0.1;
    private const int MostLeft = 1500;

    private sealed record Step(int A, int B, Point2d Way);

    /// <summary>Looks for it among what is left over in both photos; links what was blown and takes it out of the sets.</summary>
    /// <returns>The common way in pixels of the first photo; null when there was none.</returns>
    public static Point2d? Find(ShotPair pair, MoveLimits limits, HashSet<int> first, HashSet<int> second, List<Link> links)
    {
        int fewer = Math.Min(first.Count, second.Count);
        if (fewer < LeastAlike || Math.Max(first.Count, second.Count) > MostLeft)
        {
            return null;
        }

        double reach = limits.PredatorReach(4);
        List<Step> steps = [];
        foreach (int a in first)
        {
            foreach (int b in second)
            {
                Step step = StepOf(pair, a, b);
                double ratio = pair.MassInFirst(pair.Second[b]) / pair.First[a].Mass;
                if (ratio is > 0.5 and < 2 && Length(step.Way) <= reach)
                {
                    steps.Add(step);
                }
            }
        }

        if (Commonest(steps, fewer, reach) is not { } way)
        {
            return null;
        }

        foreach (Step step in steps.Where(s => Length(s.Way - way) <= Wide(way)).OrderBy(s => Length(s.Way - way)))
        {
            if (first.Contains(step.A) && second.Contains(step.B))
            {
                links.Add(new Link(step.A, step.B, Length(step.Way), LinkKind.Blown));
                first.Remove(step.A);
                second.Remove(step.B);
            }
        }

        // What lost its partner under other things, or to it, is no walker either.
        first.RemoveWhere(a => pair.Blown(pair.First[a], true, way, Wide(way)));
        second.RemoveWhere(b => pair.Blown(pair.Second[b], false, way, Wide(way)));
        return way;
    }

    /// <summary>The same among specks that were paired as walkers already: a light breath moves dust by less than its width.</summary>
    public static Point2d? Reconsider(ShotPair pair, List<Link> links, Point2d? known)
    {
        List<Step> steps = [.. links.Where(l => l.Kind is LinkKind.Crawled or LinkKind.Ran).Select(l => StepOf(pair, l.A, l.B))];
        if ((known ?? Commonest(steps, steps.Count, null)) is not { } way)
        {
            return null;
        }

        for (int i = 0; i < links.Count; i++)
        {
            if (links[i].Kind is LinkKind.Crawled or LinkKind.Ran
                && (Length(StepOf(pair, links[i].A, links[i].B).Way - way) <= Wide(way)
                    || (pair.Blown(pair.First[links[i].A], true, way, Wide(way)) && pair.Blown(pair.Second[links[i].B], false, way, Wide(way)))))
            {
                links[i] = links[i] with { Kind = LinkKind.Blown };
            }
        }

        return way;
    }

    private static Step StepOf(ShotPair pair, int a, int b) =>
        new(a, b, new Point2d(pair.SecondPlaces[b].X - pair.First[a].X, pair.SecondPlaces[b].Y - pair.First[a].Y));

    private static Point2d? Commonest(List<Step> steps, int fewer, double? reach)
    {
        List<Step> best = [];
        Point2d top = default;

        foreach (Point2d way in Crowded(steps))
        {
            List<Step> alike = [.. steps.Where(s => Length(s.Way - way) <= Tight(way))];
            if (alike.Count - Chance(way) > best.Count - Chance(top))
            {
                (best, top) = (alike, way);
            }
        }

        // As many as that going another way just as far would be walkers or chance.
        int elsewhere = new[] { new Point2d(-top.X, -top.Y), new Point2d(-top.Y, top.X), new Point2d(top.Y, -top.X) }
            .Max(other => steps.Count(s => Length(s.Way - other) <= Tight(top)));
        bool nearlyAll = best.Count >= FewAlike && best.Count >= NearlyAll * fewer;
        if ((best.Count < Math.Max(LeastAlike, ShareAlike * fewer) && !nearlyAll) || best.Count < (3 * elsewhere) + 3 || best.Count < (3 * Chance(top)) + (nearlyAll ? 3 : 4))
        {
            return null;
        }

        return new Point2d(Middle(best.Select(s => s.Way.X)), Middle(best.Select(s => s.Way.Y)));

        double Chance(Point2d way) => reach is { } wide ? steps.Count * Math.Pow(Tight(way) / wide, 2) : 0;
    }

    // Ways into squares of a few pixels; only those of the fullest squares are worth counting around.
    private static IEnumerable<Point2d> Crowded(List<Step> steps) => steps
        .GroupBy(s => (Math.Round(s.Way.X / 3), Math.Round(s.Way.Y / 3)))
        .OrderByDescending(square => square.Count())
        .Take(60)
        .Select(square => new Point2d(Middle(square.Select(s => s.Way.X)), Middle(square.Select(s => s.Way.Y))));

    private static double Tight(Point2d way) => 1 + (0.12 * Length(way));

    private static double Wide(Point2d way) => 1.2 + (0.25 * Length(way));

    private static double Length(Point2d step) => Math.Sqrt((step.X * step.X) + (step.Y * step.Y));

    private static double Middle(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }
}
