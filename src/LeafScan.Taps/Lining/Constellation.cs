using LeafScan.Frame;
using LeafScan.Taps.Spots;

namespace LeafScan.Taps.Lining;

/// <summary>
/// First guess of how two photos lie over each other, as one knows a star picture: two heavy spots of the first photo
/// are tried on every pair of the second that is as far apart, and the guess is taken on which most others fall near
/// each other too. Works for any turn, for shifts as large as the photo and for a zoom of 0.6 to 1.6.
/// </summary>
internal static class Constellation
{
    private const int Heaviest = 60;
    private const int PairsTried = 80;
    private const double ZoomMost = 1.6;
    private const double MassRatio = 1.9;

    /// <summary>The best guess and how many heavy spots agree with it; null when too few do.</summary>
    /// <param name="first">Spots of the first photo, heaviest first.</param>
    /// <param name="second">Spots of the second photo, heaviest first.</param>
    /// <param name="tolerance">How far a spot may lie from where the guess puts it, pixels.</param>
    /// <param name="apart">Least distance of a tried pair, pixels.</param>
    /// <param name="sizeRatio">Zoom of the second photo that its size alone explains.</param>
    public static PlaneMap? Guess(IReadOnlyList<Spot> first, IReadOnlyList<Spot> second, double tolerance, double apart, double sizeRatio)
    {
        Spot[] a = [.. first.Take(Heaviest)];
        Spot[] b = [.. second.Take(Heaviest)];
        if (Math.Min(a.Length, b.Length) < 3)
        {
            return null;
        }

        SpotGrid grid = SpotGrid.Of(b, tolerance);
        double massRatio = sizeRatio * sizeRatio;
        int best = 0;
        PlaneMap? guess = null;
        int full = Math.Min(a.Length, b.Length);
        foreach ((int i, int j) in FarPairs(a, apart))
        {
            foreach (PlaneMap map in Maps(a[i], a[j], b, sizeRatio))
            {
                int agree = Agreeing(map, a, b, grid, tolerance, massRatio, best);
                if (agree > best)
                {
                    (best, guess) = (agree, map);
                }
            }

            if (best >= 0.85 * full)
            {
                break;
            }
        }

        // By chance a few agree as well. On a nearly clean sheet the exact fit that follows is the judge.
        int needed = Math.Max(4, (int)Math.Ceiling(0.35 * full));
        return best >= needed ? guess : null;
    }

    private static IEnumerable<(int I, int J)> FarPairs(Spot[] a, double apart)
    {
        // Heavy pairs first: they are the surest to be seen in both photos.
        return Enumerable.Range(0, a.Length)
            .SelectMany(i => Enumerable.Range(i + 1, a.Length - i - 1).Select(j => (I: i, J: j)))
            .Where(pair => Math.Pow(a[pair.I].X - a[pair.J].X, 2) + Math.Pow(a[pair.I].Y - a[pair.J].Y, 2) > apart * apart)
            .OrderBy(pair => pair.I + pair.J)
            .Take(PairsTried);
    }

    private static IEnumerable<PlaneMap> Maps(Spot from, Spot to, Spot[] b, double sizeRatio)
    {
        double ax = to.X - from.X;
        double ay = to.Y - from.Y;
        double squared = (ax * ax) + (ay * ay);
        double massRatio = sizeRatio * sizeRatio;
        for (int k = 0; k < b.Length; k++)
        {
            if (!Alike(from, b[k], massRatio))
            {
                continue;
            }

            for (int l = 0; l < b.Length; l++)
            {
                double bx = b[l].X - b[k].X;
                double by = b[l].Y - b[k].Y;
                double zoom = Math.Sqrt(((bx * bx) + (by * by)) / squared);
                if (l == k || zoom < sizeRatio / ZoomMost || zoom > sizeRatio * ZoomMost || !Alike(to, b[l], massRatio))
                {
                    continue;
                }

                double cos = ((bx * ax) + (by * ay)) / squared;
                double sin = ((by * ax) - (bx * ay)) / squared;
                yield return new PlaneMap(
                [
                    cos, -sin, b[k].X - (cos * from.X) + (sin * from.Y),
                    sin, cos, b[k].Y - (sin * from.X) - (cos * from.Y),
                    0, 0, 1,
                ]);
            }
        }
    }

    private static int Agreeing(PlaneMap map, Spot[] a, Spot[] b, SpotGrid grid, double tolerance, double massRatio, int best)
    {
        int agree = 0;
        for (int i = 0; i < a.Length && agree + a.Length - i > best; i++)
        {
            foreach ((int k, double _) in grid.Near(map.Map(a[i].X, a[i].Y), tolerance))
            {
                if (Alike(a[i], b[k], massRatio))
                {
                    agree++;
                    break;
                }
            }
        }

        return agree;
    }

    private static bool Alike(Spot a, Spot b, double massRatio) => a.Mass * massRatio < MassRatio * b.Mass && b.Mass < MassRatio * massRatio * a.Mass;
}
