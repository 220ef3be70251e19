namespace LeafScan.Leaves.Greenness;

// Pixels that lost their way to the end of their tree look for another parent among their neighbours, or go free.
internal sealed partial class GridCut
{
    private void Adopt(int orphan)
    {
        byte tree = _tree[orphan];
        (int best, int bestDepth) = (-1, int.MaxValue);
        for (int way = 0; way < 4; way++)
        {
            int next = orphan + _step[way];
            if (_tree[next] == tree && Room(orphan, next, way, tree) > 0 && DepthOf(next) is { } depth && depth < bestDepth)
            {
                (best, bestDepth) = (way, depth);
            }
        }

        if (best >= 0)
        {
            (_parent[orphan], _depth[orphan], _seen[orphan]) = ((byte)best, bestDepth + 1, _time);
            return;
        }

        for (int way = 0; way < 4; way++)
        {
            int next = orphan + _step[way];
            if (_tree[next] != tree)
            {
                continue;
            }

            if (Room(orphan, next, way, tree) > 0)
            {
                Wake(next);
            }

            if (_parent[next] == (way ^ 1))
            {
                _parent[next] = None;
                _orphans.Enqueue(next);
            }
        }

        (_tree[orphan], _parent[orphan]) = (Free, None);
    }

    // From a parent to its child inside, from the child to its parent outside.
    private int Room(int child, int parent, int way, byte tree) => tree == Inside ? _left[(4 * parent) + (way ^ 1)] : _left[(4 * child) + way];

    // How far a pixel is from the end of its tree; null where it hangs on an orphan.
    private int? DepthOf(int at)
    {
        int steps = 0;
        int x = at;
        while (_seen[x] != _time)
        {
            if (_parent[x] == None)
            {
                return null;
            }

            steps++;
            if (_parent[x] == Root)
            {
                (_seen[x], _depth[x]) = (_time, 1);
                steps--;
                break;
            }

            x += _step[_parent[x]];
        }

        if (_parent[x] == None)
        {
            return null;
        }

        int depth = _depth[x] + steps;
        int left = depth;
        for (int y = at; _seen[y] != _time; y += _step[_parent[y]])
        {
            (_seen[y], _depth[y]) = (_time, left--);
        }

        return depth;
    }
}
