using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>What one speck covers: the pixels joined to its centre that keep at least half of its contrast.</summary>
internal static class SpeckShape
{
    /// <summary>Marks the speck's pixels and returns how many they are.</summary>
    /// <param name="strength">Speck strength, slightly smoothed.</param>
    /// <param name="covered">Receives 255 for each pixel of the speck.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="x">Centre, pixels.</param>
    /// <param name="y">Centre, pixels.</param>
    /// <param name="diameterPx">Expected diameter: the search ends at 0.9 of it from the centre.</param>
    public static int Fill(Mat strength, Mat covered, Mat mask, int x, int y, double diameterPx)
    {
        int reach = Math.Max(2, (int)Math.Ceiling(diameterPx * 0.9));
        float half = strength.AsRow<float>(y)[x] * 0.5f;
        if (half <= 0)
        {
            return 0;
        }

        int side = (2 * reach) + 1;
        Span<bool> seen = stackalloc bool[side * side];
        Span<int> open = stackalloc int[side * side];
        int count = 0;
        int waiting = 0;
        open[waiting++] = (reach * side) + reach;
        seen[(reach * side) + reach] = true;
        while (waiting > 0)
        {
            int at = open[--waiting];
            int dx = (at % side) - reach;
            int dy = (at / side) - reach;
            count++;
            covered.AsRow<byte>(y + dy)[x + dx] = 255;
            Span<(int Dx, int Dy)> next = [(dx + 1, dy), (dx - 1, dy), (dx, dy + 1), (dx, dy - 1)];
            foreach ((int nx, int ny) in next)
            {
                if ((nx * nx) + (ny * ny) > reach * reach || x + nx < 0 || y + ny < 0 || x + nx >= mask.Cols || y + ny >= mask.Rows)
                {
                    continue;
                }

                int index = ((ny + reach) * side) + nx + reach;
                if (!seen[index] && mask.AsRow<byte>(y + ny)[x + nx] != 0 && strength.AsRow<float>(y + ny)[x + nx] > half)
                {
                    seen[index] = true;
                    open[waiting++] = index;
                }
            }
        }

        return count;
    }
}
