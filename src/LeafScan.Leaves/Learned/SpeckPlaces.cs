using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// Places of single specks, as the tissue network's second output names them: up to three for each four by four pixels. Where
/// specks have run together the centre map has one peak for two or three of them, while these places were learned one for each
/// speck (models/training/places.py, docs/decisions/055-places-in-merged-fields.md). They change no area: merged fields are filled with them.
/// </summary>
internal static class SpeckPlaces
{
    /// <summary>Bytes for each cell: three scores, then x and y of each place.</summary>
    public const int Depth = Slots * 3;

    private const int Cell = 4, Slots = 3;

    private const float ScoreLow = -10, ScoreWidth = 16, OffsetLow = -2, OffsetWidth = 4, FarthestPx = 7;

    // Chosen together with the limits of MergedFields.
    private const float LeastChance = 0.3f;

    // A place this near to a speck that was found is that speck, in patch pixels.
    private const double SameSpeckPx = 4;

    private static readonly float[] Chances = [.. Enumerable.Range(0, 256).Select(q => 1 / (1 + MathF.Exp(-(ScoreLow + (q * ScoreWidth / 255)))))];

    private static readonly float[] OffsetsPx = [.. Enumerable.Range(0, 256).Select(q => FarthestPx * MathF.Tanh(OffsetLow + (q * OffsetWidth / 255)))];

    private static readonly int LeastScore = Array.FindIndex(Chances, chance => chance >= LeastChance);

    /// <summary>Reads the network's second output.</summary>
    /// <param name="bytes">A quarter of the height x a quarter of the width x <see cref="Depth"/>.</param>
    /// <param name="size">Size of the picture that the network was shown.</param>
    /// <param name="part">The part of the patch that the picture shows; places outside it are left out.</param>
    public static List<SpeckPlace> Of(ReadOnlySpan<byte> bytes, Size size, Rect part)
    {
        int across = size.Width / Cell, down = size.Height / Cell;
        if (bytes.Length != across * down * Depth)
        {
            throw new InvalidOperationException("The tissue network's places have another size than its picture; the model file does not fit this program.");
        }

        List<SpeckPlace> places = [];
        for (int at = 0, cell = 0; at < bytes.Length; at += Depth, cell++)
        {
            for (int slot = 0; slot < Slots; slot++)
            {
                int score = bytes[at + slot];
                if (score < LeastScore)
                {
                    continue;
                }

                float x = ((cell % across) + 0.5f) * Cell - 0.5f + OffsetsPx[bytes[at + Slots + (2 * slot)]];
                float y = ((cell / across) + 0.5f) * Cell - 0.5f + OffsetsPx[bytes[at + Slots + (2 * slot) + 1]];
                if (x >= 0 && y >= 0 && x <= part.Width - 1 && y <= part.Height - 1)
                {
                    places.Add(new SpeckPlace(part.X + x, part.Y + y, Chances[score]));
                }
            }
        }

        return places;
    }

    /// <summary>Places on speck pixels that no found speck accounts for, the surest first.</summary>
    /// <param name="places">What the network names.</param>
    /// <param name="specks">Specks found one by one; each accounts for one place, the nearest first.</param>
    /// <param name="codes">Mask codes of the leaf.</param>
    public static List<SpeckPlace> Beyond(IReadOnlyList<SpeckPlace> places, IReadOnlyList<SpeckMark> specks, Mat codes)
    {
        List<SpeckPlace> onSpecks = OnSpecks(places, codes);
        bool[] taken = new bool[onSpecks.Count];
        bool[] served = new bool[specks.Count];
        ILookup<(int X, int Y), int> cells = Enumerable.Range(0, specks.Count).ToLookup(i => ((int)(specks[i].X / SameSpeckPx), (int)(specks[i].Y / SameSpeckPx)));
        List<(double Far, int Place, int Speck)> pairs = [];
        for (int p = 0; p < onSpecks.Count; p++)
        {
            (int cx, int cy) = ((int)(onSpecks[p].X / SameSpeckPx), (int)(onSpecks[p].Y / SameSpeckPx));
            for (int i = 0; i < 9; i++)
            {
                foreach (int s in cells[(cx - 1 + (i % 3), cy - 1 + (i / 3))])
                {
                    double far = Math.Sqrt(Square(specks[s].X - onSpecks[p].X) + Square(specks[s].Y - onSpecks[p].Y));
                    if (far <= SameSpeckPx)
                    {
                        pairs.Add((far, p, s));
                    }
                }
            }
        }

        foreach ((_, int p, int s) in pairs.Order())
        {
            if (!taken[p] && !served[s])
            {
                taken[p] = served[s] = true;
            }
        }

        return [.. onSpecks.Where((_, p) => !taken[p]).OrderByDescending(p => p.Chance)];
    }

    // On speck pixels or beside one: the rim of a speck is half leaf.
    private static List<SpeckPlace> OnSpecks(IReadOnlyList<SpeckPlace> places, Mat codes)
    {
        List<SpeckPlace> kept = [];
        (int rows, int cols) = (codes.Rows, codes.Cols);
        foreach (SpeckPlace place in places)
        {
            (int x, int y) = ((int)MathF.Round(place.X), (int)MathF.Round(place.Y));
            bool near = false;
            for (int row = Math.Max(0, y - 1); row <= Math.Min(rows - 1, y + 1) && !near; row++)
            {
                ReadOnlySpan<byte> line = codes.AsRow<byte>(row);
                for (int col = Math.Max(0, x - 1); col <= Math.Min(cols - 1, x + 1); col++)
                {
                    near |= line[col] == (byte)MaskCode.Speck;
                }
            }

            if (near)
            {
                kept.Add(place);
            }
        }

        return kept;
    }

    private static double Square(double x) => x * x;
}
