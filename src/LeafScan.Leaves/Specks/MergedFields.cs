using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>
/// Splits fields in which specks have run together. Nobody can see single specks there, but their number follows from the
/// area: discs of area a that fall at random with n of them on each unit of leaf cover 1 - exp(-n a) of it (the Boolean model
/// of stochastic geometry; Chiu, Stoyan, Kendall and Mecke, Stochastic Geometry and its Applications, 2013, chapter 3, cited
/// from memory). Turned round: n = -ln(1 - cover) / a. Up to that number the network's places of single specks are added, the
/// surest first; where it names none, the area alone adds none (docs/decisions/055-places-in-merged-fields.md).
/// </summary>
internal static class MergedFields
{
    // Below this cover specks stand apart, and each one was found by itself. This, SameSpeck and the least chance of a place
    // (SpeckPlaces) were chosen from a dozen settings on all thirty implants and 48 renders (decision 055).
    private const double LeastCover = 0.3;

    // Above this the logarithm says more about single pixels than about specks.
    private const double MostCover = 0.97;

    private const int FewestSpecks = 5;

    // A place this near to a speck, in diameters, is that speck.
    private const double SameSpeck = 0.25;

    /// <summary>Adds the specks that a merged field must hold.</summary>
    /// <param name="specks">Specks found one by one; further ones are added at its end.</param>
    /// <param name="places">Places of further ones, the surest first (see <see cref="SpeckPlace"/>).</param>
    /// <param name="codes">Mask codes of the leaf.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="leastDiameterPx">Where the median speck is smaller, nothing is added: its area is mostly blur, and the number that follows from it a guess.</param>
    /// <returns>How many were added.</returns>
    public static int Split(List<SpeckMark> specks, IReadOnlyList<SpeckPlace> places, Mat codes, Mat mask, double leastDiameterPx)
    {
        double median = MedianDiameter(specks);
        if (places.Count == 0 || specks.Count < FewestSpecks || median < leastDiameterPx)
        {
            return 0;
        }

        return Fill(specks, places, codes, mask, Math.Max(2, median));
    }

    private static double MedianDiameter(List<SpeckMark> specks)
    {
        double[] sorted = [.. specks.Select(s => s.DiameterPx).Order()];
        return sorted.Length == 0 ? 0 : sorted[sorted.Length / 2];
    }

    private static int Fill(List<SpeckMark> specks, IReadOnlyList<SpeckPlace> places, Mat codes, Mat mask, double diameter)
    {
        int side = Math.Max(3, (int)Math.Round(3 * diameter));
        int across = (mask.Cols + side - 1) / side;
        int down = (mask.Rows + side - 1) / side;
        double[] expected = Expected(codes, mask, diameter, side, across, down);
        List<SpeckMark>?[] there = ByTile(specks, s => ((int)s.Y / side * across) + ((int)s.X / side), expected.Length);
        List<SpeckPlace>?[] offered = ByTile(places, p => ((int)p.Y / side * across) + ((int)p.X / side), expected.Length);

        // What is added in one tile is nothing to the others.
        List<SpeckMark> added = [];
        for (int tile = 0; tile < expected.Length; tile++)
        {
            int missing = (int)Math.Round(expected[tile] - (there[tile]?.Count ?? 0));
            if (missing > 0 && offered[tile] is not null)
            {
                added.AddRange(Place(missing, offered[tile]!, Near(there, tile, across, down), diameter));
            }
        }

        specks.AddRange(added);
        return added.Count;
    }

    private static List<T>?[] ByTile<T>(IReadOnlyList<T> things, Func<T, int> tileOf, int count)
    {
        List<T>?[] tiles = new List<T>?[count];
        foreach (T thing in things)
        {
            (tiles[tileOf(thing)] ??= []).Add(thing);
        }

        return tiles;
    }

    // How many specks each tile must hold. The share about a place that is speck, in a window of six speck widths, changes slowly,
    // so that it is taken on a copy whose pixels are up to half a speck wide.
    private static double[] Expected(Mat codes, Mat mask, double diameter, int side, int across, int down)
    {
        int step = diameter >= 8 ? 4 : diameter >= 4 ? 2 : 1;
        int window = (int)Math.Round(6 * diameter / step) | 1;

        // Only the leaf's own pixels are asked, so what no window about one of them reaches is left out.
        Rect part = LeafPatch.PartOf(mask, window * step / 2);
        Size small = new(Math.Max(1, part.Width / step), Math.Max(1, part.Height / step));
        using Mat speck = new(), share = new(), leaf = new(), cover = new();
        using (Mat near = new(codes, part), nearMask = new(mask, part))
        {
            Cv2.InRange(near, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
            Cv2.Resize(speck, speck, small, 0, 0, InterpolationFlags.Area);
            Cv2.Resize(nearMask, share, small, 0, 0, InterpolationFlags.Area);
        }

        Cv2.BoxFilter(speck, cover, MatType.CV_32F, new Size(window, window));
        Cv2.BoxFilter(share, leaf, MatType.CV_32F, new Size(window, window));
        Cv2.Max(leaf, new Scalar(1), leaf);
        Cv2.Divide(cover, leaf, cover);
        double[] expected = new double[across * down];
        double discs = step * step / (Math.PI * diameter * diameter / 4);
        for (int y = 0; y < small.Height; y++)
        {
            ReadOnlySpan<byte> inside = share.AsRow<byte>(y);
            ReadOnlySpan<float> c = cover.AsRow<float>(y);
            int first = Math.Min(down - 1, (part.Y + (y * step) + (step / 2)) / side) * across;
            for (int x = 0; x < inside.Length; x++)
            {
                if (inside[x] != 0 && c[x] >= LeastCover)
                {
                    expected[first + Math.Min(across - 1, (part.X + (x * step) + (step / 2)) / side)] -= Math.Log(1 - Math.Min(c[x], MostCover)) * discs * inside[x] / 255;
                }
            }
        }

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

    private static List<SpeckMark> Place(int most, List<SpeckPlace> places, List<SpeckMark> near, double diameter)
    {
        List<SpeckMark> added = [];
        foreach (SpeckPlace p in places)
        {
            if (added.Count < most && !near.Concat(added).Any(o => Math.Sqrt(((o.X - p.X) * (o.X - p.X)) + ((o.Y - p.Y) * (o.Y - p.Y))) < SameSpeck * diameter))
            {
                added.Add(new SpeckMark(p.X, p.Y, diameter));
            }
        }

        return added;
    }
}
