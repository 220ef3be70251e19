using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using LeafScan.Training.Rendering.Truth;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>
/// From the fine canvas to the photo's mask: a pixel is foliage where at least half of it is, and then has the code that
/// covers most of it; of equal ones the worse.
/// </summary>
internal static class TwigTruthMask
{
    /// <summary>8-bit mask codes, size of the photo.</summary>
    public static Mat Codes(TwigCanvas canvas)
    {
        const int Finer = TwigCanvas.Finer;
        Mat codes = Pixels.NewMask(new Size(canvas.Codes.Cols / Finer, canvas.Codes.Rows / Finer));
        Span<int> counts = stackalloc int[8];
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> to = Pixels.Bytes(codes, y);
            Span<byte> top = Pixels.Bytes(canvas.Codes, Finer * y);
            Span<byte> low = Pixels.Bytes(canvas.Codes, (Finer * y) + 1);
            for (int x = 0; x < to.Length; x++)
            {
                counts.Clear();
                counts[top[2 * x]]++;
                counts[top[(2 * x) + 1]]++;
                counts[low[2 * x]]++;
                counts[low[(2 * x) + 1]]++;
                if (counts[0] > 2)
                {
                    continue;
                }

                int best = 1;
                for (int code = 2; code < 8; code++)
                {
                    best = counts[code] >= counts[best] && counts[code] > 0 ? code : best;
                }

                to[x] = (byte)best;
            }
        }

        return codes;
    }

    /// <summary>Shares from the mask, specks that are seen, and the share of new growth.</summary>
    public static TwigTruth Sum(TwigSpec spec, TwigCanvas canvas, Mat codes, TwigPainter painter, IReadOnlyList<TwigLeaf> leaves, LeafHarm[] harm)
    {
        var counts = new int[8];
        int fresh = 0;
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> row = Pixels.Bytes(codes, y);
            Span<int> owner = Pixels.Ints(canvas.Owner, TwigCanvas.Finer * y);
            for (int x = 0; x < row.Length; x++)
            {
                counts[row[x]]++;
                int leaf = owner[TwigCanvas.Finer * x];
                fresh += row[x] != 0 && leaf > 0 && leaves[leaf - 1].FromEndMm < spec.NewGrowthMm ? 1 : 0;
            }
        }

        int area = counts.Sum() - counts[0];
        double all = Math.Max(1, area);
        List<Speck> specks = Seen(spec, canvas, painter, leaves, harm);
        TrueShares shares = new(counts[(int)MaskCode.Speck] / all, counts[(int)MaskCode.Yellowed] / all, counts[(int)MaskCode.Browned] / all, 0);
        double fallen = harm.Count(h => h.Lost) / (double)Math.Max(1, harm.Length);
        return new TwigTruth(new LeafTruth(spec.Host, area, shares, specks.Count, specks), fallen, fresh / all);
    }

    // A speck is seen when its centre belongs to it: later leaves and specks write their own number or code.
    private static List<Speck> Seen(TwigSpec spec, TwigCanvas canvas, TwigPainter painter, IReadOnlyList<TwigLeaf> leaves, LeafHarm[] harm)
    {
        List<Speck> seen = [];
        for (int i = 0; i < harm.Length; i++)
        {
            if (harm[i].Lost || harm[i].Specks.Count == 0)
            {
                continue;
            }

            LeafOutline outline = painter.Lay(leaves[i]);
            foreach (LeafSpeck speck in harm[i].Specks)
            {
                Point2d at = outline.Place(speck.Along, speck.Across);
                int x = (int)Math.Round(at.X);
                int y = (int)Math.Round(at.Y);
                if (x >= 0 && y >= 0 && x < canvas.Codes.Cols && y < canvas.Codes.Rows
                    && Pixels.Ints(canvas.Owner, y)[x] == i + 1 && Pixels.Bytes(canvas.Codes, y)[x] == (byte)MaskCode.Speck)
                {
                    // Pixel centres: fine pixel 0 lies at a quarter of a pixel before the middle of photo pixel 0.
                    seen.Add(new Speck(((at.X + 0.5) / TwigCanvas.Finer) - 0.5, ((at.Y + 0.5) / TwigCanvas.Finer) - 0.5, speck.DiameterMm * spec.PixelsPerMm, speck.Strength));
                }
            }
        }

        return seen;
    }
}
