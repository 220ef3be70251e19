using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps.Lining;

/// <summary>Finds spots near a place without looking at all of them.</summary>
internal sealed class SpotGrid
{
    private readonly Dictionary<(int X, int Y), List<int>> _cells = [];
    private readonly IReadOnlyList<Point2d> _places;
    private readonly double _cell;

    /// <summary>A grid over places.</summary>
    /// <param name="places">The places.</param>
    /// <param name="cell">Width of a cell: about the reach that is asked for.</param>
    public SpotGrid(IReadOnlyList<Point2d> places, double cell)
    {
        _places = places;
        _cell = Math.Max(1, cell);
        for (int i = 0; i < places.Count; i++)
        {
            (int, int) key = Key(places[i]);
            if (!_cells.TryGetValue(key, out List<int>? list))
            {
                _cells[key] = list = [];
            }

            list.Add(i);
        }
    }

    /// <summary>A grid over the middles of spots.</summary>
    public static SpotGrid Of(IReadOnlyList<Spot> spots, double cell) => new([.. spots.Select(s => new Point2d(s.X, s.Y))], cell);

    /// <summary>Numbers and squared distances of all within reach.</summary>
    public IEnumerable<(int Index, double Squared)> Near(Point2d at, double reach)
    {
        int left = (int)Math.Floor((at.X - reach) / _cell);
        int right = (int)Math.Floor((at.X + reach) / _cell);
        int top = (int)Math.Floor((at.Y - reach) / _cell);
        int bottom = (int)Math.Floor((at.Y + reach) / _cell);
        for (int y = top; y <= bottom; y++)
        {
            for (int x = left; x <= right; x++)
            {
                if (!_cells.TryGetValue((x, y), out List<int>? list))
                {
                    continue;
                }

                foreach (int i in list)
                {
                    double dx = _places[i].X - at.X;
                    double dy = _places[i].Y - at.Y;
                    double squared = (dx * dx) + (dy * dy);
                    if (squared <= reach * reach)
                    {
                        yield return (i, squared);
                    }
                }
            }
        }
    }

    private (int X, int Y) Key(Point2d at) => ((int)Math.Floor(at.X / _cell), (int)Math.Floor(at.Y / _cell));
}
