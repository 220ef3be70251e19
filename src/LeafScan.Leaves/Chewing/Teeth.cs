namespace LeafScan.Leaves.Chewing;

/// <summary>
/// The notches between the teeth or lobes of a margin: what is usual here, so that only a dent that is far more than a
/// notch counts as bitten. Notches change along a leaf, so each dent is held against its neighbours.
/// </summary>
internal sealed class Teeth
{
    private const int Neighbours = 6;
    private readonly List<Dent> _notches;

    private Teeth(List<Dent> notches) => _notches = notches;

    /// <summary>Teeth of a margin, or null when it has fewer than <paramref name="from"/> notches.</summary>
    public static Teeth? Of(List<Dent> dents, int from)
    {
        List<Dent> notches = dents.Where(d => d.DepthToMouth >= 0.06).OrderBy(d => d.Start).ToList();
        return notches.Count < from ? null : new Teeth(notches);
    }

    /// <summary>Mouth, depth and area of the usual notch around a dent: the lower middle of its neighbours, as some may be bites.</summary>
    public (double MouthPx, double DepthPx, double AreaPx) Near(Dent dent)
    {
        int at = _notches.FindIndex(n => n.Start >= dent.Start);
        at = at < 0 ? 0 : at;
        List<Dent> near = [];
        for (int k = -Neighbours; k <= Neighbours; k++)
        {
            near.Add(_notches[(((at + k) % _notches.Count) + _notches.Count) % _notches.Count]);
        }

        return (Usual(near, n => n.MouthPx), Usual(near, n => n.DepthPx), Usual(near, n => n.AreaPx));
    }

    private static double Usual(List<Dent> dents, Func<Dent, double> of) => dents.Select(of).Order().ElementAt(dents.Count * 45 / 100);
}
