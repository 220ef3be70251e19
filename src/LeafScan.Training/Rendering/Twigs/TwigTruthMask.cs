using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using LeafScan.Training.Rendering.Truth;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>Adds up the truth about a twig from its mask.</summary>
internal static class TwigTruthMask
{
    /// <summary>Shares from the mask, specks that are seen, and the share of new growth.</summary>
    public static TwigTruth Sum(TwigSpec spec, FineCanvas canvas, Mat codes, TwigPainter painter, IReadOnlyList<TwigLeaf> leaves, LeafHarm[] harm)
    {
        var counts = new int[8];
        int fresh = 0;
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> row = Pixels.Bytes(codes, y);
            Span<int> owner = Pixels.Ints(canvas.Owner, FineCanvas.Finer * y);
            for (int x = 0; x < row.Length; x++)
            {
                counts[row[x]]++;
                int leaf = owner[FineCanvas.Finer * x];
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
    private static List<Speck> Seen(TwigSpec spec, FineCanvas canvas, TwigPainter painter, IReadOnlyList<TwigLeaf> leaves, LeafHarm[] harm)
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
                    seen.Add(new Speck(((at.X + 0.5) / FineCanvas.Finer) - 0.5, ((at.Y + 0.5) / FineCanvas.Finer) - 0.5, speck.DiameterMm * spec.PixelsPerMm, speck.Strength));
                }
            }
        }

        return seen;
    }
}
