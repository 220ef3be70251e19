using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>
/// Splits fields in which specks have run together. Nobody can see single specks there, but their number follows from the
/// area: discs of area a that fall at random with n of them on each unit of leaf cover 1 - exp(-n a) of it (the Boolean model
/// of stochastic geometry; Chiu, Stoyan, Kendall and Mecke, Stochastic Geometry and its Applications, 2013, chapter 3, cited
/// from memory). Turned round: n = -ln(1 - cover) / a. What is missing to that number is placed on shoulders of the network's centre map, then where the field is emptiest.
/// </summary>
internal static class MergedFields
{
    // Below this cover specks stand apart, and each one was found by itself.
    private const double LeastCover = 0.6;

    // Above this the logarithm says more about single pixels than about specks.
    private const double MostCover = 0.97;

    // Feeding is clustered, so that discs overlap more than by chance within what one window averages. This and the two
    // limits were chosen from a handful of settings on all thirty implants: those check nothing about them.
    private const double Caution = 0.8;

    private const int FewestSpecks = 5;

    // A shoulder this near to a speck, in diameters, is that speck. Chosen on the implants from three values (decision 047).
    private const double SameSpeck = 0.25;

    /// <summary>Adds the specks that a merged field must hold.</summary>
    /// <param name="specks">Specks found one by one; further ones are added at its end.</param>
    /// <param name="likely">Likely places of further ones, the best first; empty for none.</param>
    /// <param name="codes">Mask codes of the leaf.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="leastDiameterPx">Where the median speck is smaller, nothing is added: its area is mostly blur, and the number that follows from it a guess.</param>
    /// <returns>How many were added.</returns>
    public static int Split(List<SpeckMark> specks, List<SpeckMark> likely, Mat codes, Mat mask, double leastDiameterPx)
    {
        double median = MedianDiameter(specks);
        if (specks.Count < FewestSpecks || median < leastDiameterPx)
        {
            return 0;
        }

        double diameter = Math.Max(2, median);
        using Mat speck = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        int window = (int)Math.Round(6 * diameter) | 1;

        // Only the leaf's own pixels are asked, so what no window about one of them reaches is left out.
        Rect part = LeafPatch.PartOf(mask, window / 2);
        using Mat nearSpeck = new(speck, part);
        using Mat nearMask = new(mask, part);
        using Mat cover = CoverAround(nearSpeck, nearMask, window);
        return Fill(specks, likely, speck, mask, cover, part, diameter);
    }

    private static double MedianDiameter(List<SpeckMark> specks)
    {
        double[] sorted = [.. specks.Select(s => s.DiameterPx).Order()];
        return sorted.Length == 0 ? 0 : sorted[sorted.Length / 2];
    }

    // Share of the leaf about each pixel that is speck, 0..1.
    private static Mat CoverAround(Mat speck, Mat mask, int window)
    {
        Mat cover = new();
        using Mat leaf = new();
        Size size = new(window, window);
        Bands.Both(() => Cv2.BoxFilter(speck, cover, MatType.CV_32F, size), () => Cv2.BoxFilter(mask, leaf, MatType.CV_32F, size));
        Cv2.Max(leaf, new Scalar(1), leaf);
        Cv2.Divide(cover, leaf, cover);
        return cover;
    }

    private static int Fill(List<SpeckMark> specks, List<SpeckMark> likely, Mat speck, Mat mask, Mat cover, Rect part, double diameter)
    {
        int side = Math.Max(3, (int)Math.Round(3 * diameter));
        (int rows, int cols) = (mask.Rows, mask.Cols);
        int across = (cols + side - 1) / side;
        int down = (rows + side - 1) / side;
        double[] expected = Expected(mask, cover, part, diameter, side, across, down);
        List<SpeckMark>?[] there = ByTile(specks, side, across, expected.Length);
        List<SpeckMark>?[] places = ByTile(likely, side, across, expected.Length);

        List<(int Tile, int Missing)> wanting = [];
        for (int tile = 0; tile < expected.Length; tile++)
        {
            int missing = (int)Math.Round(expected[tile] - (there[tile]?.Count ?? 0));
            if (missing > 0)
            {
                wanting.Add((tile, missing));
            }
        }

        // What is added in one tile is nothing to the others.
        List<SpeckMark>[] added = new List<SpeckMark>[wanting.Count];
        Bands.Each(wanting.Count, i =>
        {
            (int tile, int missing) = wanting[i];
            Rect area = Rect.Intersect(new Rect(tile % across * side, tile / across * side, side, side), new Rect(0, 0, cols, rows));
            added[i] = Place(missing, area, speck, Near(there, tile, across, down), places[tile] ?? [], diameter);
        });
        int before = specks.Count;
        specks.AddRange(added.SelectMany(marks => marks));
        return specks.Count - before;
    }

    private static List<SpeckMark>?[] ByTile(List<SpeckMark> specks, int side, int across, int count)
    {
        List<SpeckMark>?[] tiles = new List<SpeckMark>?[count];
        foreach (SpeckMark s in specks)
        {
            int tile = ((int)s.Y / side * across) + ((int)s.X / side);
            (tiles[tile] ??= []).Add(s);
        }

        return tiles;
    }

    private static double[] Expected(Mat mask, Mat cover, Rect part, double diameter, int side, int across, int down)
    {
        double disc = Math.PI * diameter * diameter / 4;
        double[] expected = new double[across * down];
        Bands.Each(down, line =>
        {
            int end = Math.Min(part.Bottom, (line + 1) * side);
            for (int y = Math.Max(part.Top, line * side); y < end; y++)
            {
                ReadOnlySpan<byte> inside = mask.AsRow<byte>(y).Slice(part.X, part.Width);
                ReadOnlySpan<float> c = cover.AsRow<float>(y - part.Y);
                for (int x = 0; x < inside.Length; x++)
                {
                    if (inside[x] != 0 && c[x] >= LeastCover)
                    {
                        expected[(line * across) + ((part.X + x) / side)] -= Caution * Math.Log(1 - Math.Min(c[x], MostCover)) / disc;
                    }
                }
            }
        });
        return expected;
    }

    // The tile's own specks and those of its eight neighbours.
    private static List<SpeckMark> Near(List<SpeckMark>?[] there, int tile, int across, int down)
    {
        List<SpeckMark> near = [];
        (int tx, int ty) = (tile % across, tile / across);
        for (int y = Math.Max(0, ty - 1); y <= Math.Min(down - 1, ty + 1); y++)
        {
            for (int x = Math.Max(0, tx - 1); x <= Math.Min(across - 1, tx + 1); x++)
            {
                near.AddRange(there[(y * across) + x] ?? []);
            }
        }

        return near;
    }

    // Likely places first. Then farthest point first: each new centre goes where it has most room among speck pixels.
    private static List<SpeckMark> Place(int count, Rect area, Mat speck, List<SpeckMark> near, List<SpeckMark> likely, double diameter)
    {
        List<SpeckMark> added = [];
        foreach (SpeckMark s in likely)
        {
            if (added.Count < count && !near.Concat(added).Any(o => IsSame(o, s, diameter)))
            {
                added.Add(new SpeckMark(s.X, s.Y, diameter));
            }
        }

        List<(int X, int Y)> places = [];
        for (int y = area.Top; y < area.Bottom; y++)
        {
            ReadOnlySpan<byte> row = speck.AsRow<byte>(y);
            for (int x = area.Left; x < area.Right; x++)
            {
                if (row[x] != 0)
                {
                    places.Add((x, y));
                }
            }
        }

        double[] room = new double[places.Count];
        Array.Fill(room, 4 * diameter * diameter);
        foreach (SpeckMark s in near.Concat(added))
        {
            Take(room, places, s.X, s.Y);
        }

        while (added.Count < count && places.Count > 0)
        {
            int best = Array.IndexOf(room, room.Max());
            if (room[best] < 1)
            {
                break;
            }

            (int x, int y) = places[best];
            added.Add(new SpeckMark(x, y, diameter));
            Take(room, places, x, y);
        }

        return added;
    }

    private static bool IsSame(SpeckMark a, SpeckMark b, double diameter)
        => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y))) < SameSpeck * diameter;

    private static void Take(double[] room, List<(int X, int Y)> places, double x, double y)
    {
        for (int i = 0; i < room.Length; i++)
        {
            double dx = places[i].X - x;
            double dy = places[i].Y - y;
            room[i] = Math.Min(room[i], (dx * dx) + (dy * dy));
        }
    }
}
