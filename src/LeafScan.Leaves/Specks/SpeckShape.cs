using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>What one speck covers: the pixels joined to its centre that keep at least half of its contrast.</summary>
/// <param name="strength">Speck strength, slightly smoothed.</param>
/// <param name="mask">255 leaf, 0 elsewhere.</param>
/// <param name="yellowed">255 where tissue is diffusely yellowed.</param>
internal sealed class SpeckShape(Mat strength, Mat mask, Mat yellowed)
{
    private const int SmallestAreaPx = 3;

    private readonly PixelRows<float> _strength = new(strength);
    private readonly PixelRows<byte> _mask = new(mask);
    private readonly PixelRows<byte> _yellowed = new(yellowed);
    private readonly List<(int X, int Y)> _pixels = [];

    /// <summary>
    /// Marks the speck's pixels; false, and nothing marked, when it is no speck: too small, or the rim of a yellow patch.
    /// </summary>
    /// <param name="covered">Receives 255 for each pixel of the speck.</param>
    /// <param name="x">Centre, pixels.</param>
    /// <param name="y">Centre, pixels.</param>
    /// <param name="diameterPx">Expected diameter: the search ends at 0.9 of it from the centre.</param>
    /// <param name="area">Pixels of the speck.</param>
    public bool Fill(Mat covered, int x, int y, double diameterPx, out int area)
    {
        int reach = Math.Max(2, (int)Math.Ceiling(diameterPx * 0.9));
        area = Grow(x, y, reach, out bool clipped, out int inYellow);
        if (area < SmallestAreaPx || (clipped && inYellow > area / 2))
        {
            return false;
        }

        PixelRows<byte> marks = new(covered);
        foreach ((int px, int py) in _pixels)
        {
            marks[py][px] = 255;
        }

        return true;
    }

    private int Grow(int x, int y, int reach, out bool clipped, out int inYellow)
    {
        clipped = false;
        inYellow = 0;
        _pixels.Clear();
        float half = _strength[y][x] * 0.5f;
        if (half <= 0)
        {
            return 0;
        }

        int side = (2 * reach) + 1;
        Span<bool> seen = stackalloc bool[side * side];
        Span<int> open = stackalloc int[side * side];
        Span<(int Dx, int Dy)> next = stackalloc (int, int)[4];
        int waiting = 0;
        open[waiting++] = (reach * side) + reach;
        seen[(reach * side) + reach] = true;
        while (waiting > 0)
        {
            int at = open[--waiting];
            int dx = (at % side) - reach;
            int dy = (at / side) - reach;
            _pixels.Add((x + dx, y + dy));
            if (_yellowed[y + dy][x + dx] != 0)
            {
                inYellow++;
            }

            next[0] = (dx + 1, dy);
            next[1] = (dx - 1, dy);
            next[2] = (dx, dy + 1);
            next[3] = (dx, dy - 1);
            foreach ((int nx, int ny) in next)
            {
                if (x + nx < 0 || y + ny < 0 || x + nx >= _mask.Cols || y + ny >= _mask.Rows
                    || _mask[y + ny][x + nx] == 0 || _strength[y + ny][x + nx] <= half)
                {
                    continue;
                }

                if ((nx * nx) + (ny * ny) > reach * reach)
                {
                    clipped = true;
                    continue;
                }

                int index = ((ny + reach) * side) + nx + reach;
                if (!seen[index])
                {
                    seen[index] = true;
                    open[waiting++] = index;
                }
            }
        }

        return _pixels.Count;
    }
}
