namespace LeafScan.Leaves.Greenness;

/// <summary>
/// The cheapest cut of a grid of pixels into inside and outside, each pixel leaning to one of them and held to its four
/// neighbours. Exact: a maximum flow by two search trees (Boykov and Kolmogorov 2004).
/// </summary>
internal sealed partial class GridCut
{
    /// <summary>Whole numbers for one unit of a leaning or a bond.</summary>
    private const int Unit = 256;

    private const byte Free = 0;
    private const byte Inside = 1;
    private const byte Outside = 2;
    private const byte Root = 4;
    private const byte None = 5;

    private readonly int _cols;
    private readonly int _rows;
    private readonly int _wide;
    private readonly int[] _step;

    // What may still flow from a pixel to each neighbour (right, left, below, above), and from or to the two ends.
    private readonly int[] _left;
    private readonly int[] _end;
    private readonly byte[] _tree;
    private readonly byte[] _parent;
    private readonly int[] _depth;
    private readonly int[] _seen;
    private readonly bool[] _waiting;
    private readonly Queue<int> _active = new();
    private readonly Queue<int> _orphans = new();
    private int _time;

    private GridCut(int cols, int rows)
    {
        (_cols, _rows, _wide) = (cols, rows, cols + 2);
        int all = _wide * (rows + 2);
        _step = [1, -1, _wide, -_wide];
        _left = new int[4 * all];
        _end = new int[all];
        _tree = new byte[all];
        _parent = new byte[all];
        _depth = new int[all];
        _seen = new int[all];
        _waiting = new bool[all];
        Array.Fill(_parent, None);
    }

    /// <summary>Cuts.</summary>
    /// <param name="leaning">For each pixel, row by row: above 0 where it is likelier inside, natural logarithm of the odds.</param>
    /// <param name="right">What it costs to part a pixel from the one to its right, 0 or more; the last of a row is not read.</param>
    /// <param name="below">The same for the one below.</param>
    /// <param name="cols">Pixels in a row.</param>
    /// <returns>True where a pixel is inside.</returns>
    public static bool[] Cut(ReadOnlySpan<float> leaning, ReadOnlySpan<float> right, ReadOnlySpan<float> below, int cols)
    {
        GridCut cut = new(cols, leaning.Length / cols);
        cut.Fill(leaning, right, below);
        cut.Flow();
        return cut.Result();
    }

    private void Fill(ReadOnlySpan<float> leaning, ReadOnlySpan<float> right, ReadOnlySpan<float> below)
    {
        for (int y = 0; y < _rows; y++)
        {
            for (int x = 0; x < _cols; x++)
            {
                int from = (y * _cols) + x;
                int at = At(x, y);
                _end[at] = (int)MathF.Round(leaning[from] * Unit);
                if (x + 1 < _cols)
                {
                    _left[4 * at] = _left[(4 * (at + 1)) + 1] = (int)MathF.Round(right[from] * Unit);
                }

                if (y + 1 < _rows)
                {
                    _left[(4 * at) + 2] = _left[(4 * (at + _wide)) + 3] = (int)MathF.Round(below[from] * Unit);
                }

                if (_end[at] != 0)
                {
                    (_tree[at], _parent[at], _depth[at]) = (_end[at] > 0 ? Inside : Outside, Root, 1);
                    Wake(at);
                }
            }
        }
    }

    private bool[] Result()
    {
        bool[] inside = new bool[_cols * _rows];
        for (int y = 0; y < _rows; y++)
        {
            for (int x = 0; x < _cols; x++)
            {
                inside[(y * _cols) + x] = _tree[At(x, y)] == Inside;
            }
        }

        return inside;
    }

    private int At(int x, int y) => ((y + 1) * _wide) + x + 1;

    private void Wake(int at)
    {
        if (!_waiting[at])
        {
            _waiting[at] = true;
            _active.Enqueue(at);
        }
    }

    private void Flow()
    {
        while (_active.TryPeek(out int at))
        {
            if (_tree[at] == Free || Grow(at) is not { } bridge)
            {
                _active.Dequeue();
                _waiting[at] = false;
                continue;
            }

            Push(bridge.From, bridge.Way);
            _time++;
            while (_orphans.TryDequeue(out int orphan))
            {
                Adopt(orphan);
            }
        }
    }

    // Takes free neighbours into the tree; stops at a bridge to the other tree, given from the inside one.
    private (int From, int Way)? Grow(int at)
    {
        byte tree = _tree[at];
        for (int way = 0; way < 4; way++)
        {
            int next = at + _step[way];
            int room = tree == Inside ? _left[(4 * at) + way] : _left[(4 * next) + (way ^ 1)];
            if (room == 0)
            {
                continue;
            }

            if (_tree[next] == Free)
            {
                (_tree[next], _parent[next], _depth[next], _seen[next]) = (tree, (byte)(way ^ 1), _depth[at] + 1, _seen[at]);
                Wake(next);
            }
            else if (_tree[next] != tree)
            {
                return tree == Inside ? (at, way) : (next, way ^ 1);
            }
            else if (_seen[next] <= _seen[at] && _depth[next] > _depth[at] + 1)
            {
                (_parent[next], _depth[next], _seen[next]) = ((byte)(way ^ 1), _depth[at] + 1, _seen[at]);
            }
        }

        return null;
    }

    private void Push(int from, int way)
    {
        int to = from + _step[way];
        int most = _left[(4 * from) + way];
        int x = from;
        for (; _parent[x] != Root; x += _step[_parent[x]])
        {
            most = Math.Min(most, _left[(4 * (x + _step[_parent[x]])) + (_parent[x] ^ 1)]);
        }

        most = Math.Min(most, _end[x]);
        for (x = to; _parent[x] != Root; x += _step[_parent[x]])
        {
            most = Math.Min(most, _left[(4 * x) + _parent[x]]);
        }

        most = Math.Min(most, -_end[x]);
        _left[(4 * from) + way] -= most;
        _left[(4 * to) + (way ^ 1)] += most;
        for (x = from; _parent[x] != Root;)
        {
            (int parent, int up) = (x + _step[_parent[x]], _parent[x]);
            _left[(4 * x) + up] += most;
            x = Take(x, parent, (4 * parent) + (up ^ 1), most);
        }

        TakeEnd(x, -most);
        for (x = to; _parent[x] != Root;)
        {
            (int parent, int up) = (x + _step[_parent[x]], _parent[x]);
            _left[(4 * parent) + (up ^ 1)] += most;
            x = Take(x, parent, (4 * x) + up, most);
        }

        TakeEnd(x, most);
    }

    private int Take(int child, int parent, int edge, int most)
    {
        _left[edge] -= most;
        if (_left[edge] == 0)
        {
            _parent[child] = None;
            _orphans.Enqueue(child);
        }

        return parent;
    }

    private void TakeEnd(int at, int by)
    {
        _end[at] += by;
        if (_end[at] == 0)
        {
            _parent[at] = None;
            _orphans.Enqueue(at);
        }
    }
}
