using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>A rectangle of a picture in which some of the leaf lies.</summary>
/// <param name="Place">Where, in pixels.</param>
/// <param name="AllLeaf">Nothing but leaf in it and within <see cref="ReachPx"/> of it.</param>
internal readonly record struct LeafTile(Rect Place, bool AllLeaf)
{
    /// <summary>Farthest that a filter may look from a tile.</summary>
    public const int ReachPx = 16;

    // Two floats a pixel of this fill a processor's own memory of half a megabyte.
    private const int SidePx = 256;

    // What is asked of pixels just outside the leaf is right too.
    private const int RimPx = 2;

    /// <summary>The tiles of a picture, row by row; those without leaf are left out.</summary>
    /// <param name="weight">32-bit float, 1 leaf, 0 elsewhere, between at the margin.</param>
    public static IReadOnlyList<LeafTile> Of(Mat weight)
    {
        using Mat all = new();
        Cv2.Compare(weight, Scalar.All(1), all, CmpTypes.GE);
        Rect whole = new(0, 0, weight.Cols, weight.Rows);
        List<LeafTile> tiles = [];
        for (int y = 0; y < whole.Height; y += SidePx)
        {
            for (int x = 0; x < whole.Width; x += SidePx)
            {
                Rect place = new Rect(x, y, SidePx, SidePx).Intersect(whole);
                using Mat near = new(weight, Grown(place, RimPx, whole));
                if (Cv2.CountNonZero(near) > 0)
                {
                    Rect wide = Grown(place, ReachPx, whole);
                    using Mat view = new(all, wide);
                    tiles.Add(new LeafTile(place, Cv2.CountNonZero(view) == wide.Width * wide.Height));
                }
            }
        }

        return tiles;
    }

    private static Rect Grown(Rect place, int by, Rect whole) =>
        new Rect(place.X - by, place.Y - by, place.Width + (2 * by), place.Height + (2 * by)).Intersect(whole);
}
