using System.Diagnostics;
using System.Numerics;
using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Causes;
using LeafScan.Leaves.Chewing;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tissue;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves;

/// <summary>Reads one leaf that was found in a photo and draws it into the photo's mask.</summary>
internal static class LeafReader
{
    /// <summary>Measures the leaf.</summary>
    /// <param name="leaf">The leaf: outline, pixels, tissue.</param>
    /// <param name="mask">The photo's mask of <see cref="MaskCode"/>; receives this leaf.</param>
    /// <param name="options">How to measure.</param>
    public static LeafReading Read(JudgedLeaf leaf, Mat mask, MeasureOptions options)
    {
        (FoundLeaf found, LeafPatch patch, TissueMap tissue) = (leaf.Found, leaf.Patch, leaf.Tissue);
        LeafFeatures? patterns = null;
        Drawn? drawn = null;
        Bands.Both(
            () =>
            {
                leaf.Chewed ??= LeafShape.Missing(found.Mask, options.Chewing);
                drawn = DrawnOf(leaf, mask);
            },
            () => patterns = Patterns(leaf));
        (ChewMap chewed, double area, LeafShares shares, List<PointPx> outline) = (leaf.Chewed!, drawn!.AreaPx, drawn.Shares, drawn.Outline);

        List<string> flags = [.. found.Flags, .. tissue.Flags];
        if (Math.Max(found.Box.Width, found.Box.Height) < options.SmallLeafPx)
        {
            AddOnce(flags, Flag.LeafTooSmall.Name);
        }

        if (shares.Unassessed > 0.05)
        {
            AddOnce(flags, Flag.Glare.Name);
        }

        if (chewed.StraightCut)
        {
            AddOnce(flags, Flag.StraightCut.Name);
        }

        double rim = DamageInterval.InDoubt(found) ? RimPatches.ShareOf(tissue.Codes, patch.Mask) : 0;
        (double low, double high) = DamageInterval.Of(shares, tissue.Low, tissue.High, area, found, rim);
        List<SpeckMark> specks = tissue.Specks
            .Select(s => new SpeckMark(
                Math.Round(found.Box.X + ((s.X + 0.5) / patch.Scale) - 0.5, 1),
                Math.Round(found.Box.Y + ((s.Y + 0.5) / patch.Scale) - 0.5, 1),
                Math.Round(s.DiameterPx / patch.Scale, 1)))
            .ToList();
        return new LeafReading
        {
            Outline = outline,
            AreaPx = area,
            Shares = shares,
            Damage = shares.Damage,
            DamageLow = low,
            DamageHigh = high,
            SpeckCount = specks.Count,
            SpeckDiameterMedianPx = Median(specks),
            SpeckCentres = specks,
            Causes = CauseJudge.Judge(patterns! with { Shares = shares, BiteCount = chewed.BiteCount, HoleCount = chewed.HoleCount }),
            Flags = flags,
        };
    }

    // Draws the leaf into the photo's mask.
    private static Drawn DrawnOf(JudgedLeaf leaf, Mat mask)
    {
        using Activity? step = Steps.Begin("shares and line");
        using Mat codes = FullSizeCodes(leaf.Tissue.Codes, leaf.Found.Mask, leaf.Chewed!.Missing);
        long[] counts = Counts(codes);
        double area = counts.Skip(1).Sum();
        Draw(codes, mask, leaf.Found.Box);
        return new Drawn(area, Shares(counts, area), OutlineOf(codes, leaf.Found.Box));
    }

    private static LeafFeatures Patterns(JudgedLeaf leaf)
    {
        using Activity? step = Steps.Begin("causes");
        return FeatureReader.Read(leaf);
    }

    private static Mat FullSizeCodes(Mat codes, Mat leafMask, Mat missing)
    {
        Mat full = new();
        if (codes.Size() == leafMask.Size())
        {
            codes.CopyTo(full);
        }
        else
        {
            Cv2.Resize(codes, full, leafMask.Size(), 0, 0, InterpolationFlags.Nearest);
        }

        PixelRows<byte> to = new(full), inside = new(leafMask), eaten = new(missing);
        Bands.Run(full.Rows, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                Complete(to[y], inside[y], eaten[y]);
            }
        });
        return full;
    }

    // The patch's mask may be a pixel off at the margin: leaf pixels that got no code are sound, and none lie outside.
    private static void Complete(Span<byte> codes, ReadOnlySpan<byte> inside, ReadOnlySpan<byte> eaten)
    {
        int x = 0;
        for (; x <= codes.Length - Vector<byte>.Count; x += Vector<byte>.Count)
        {
            Vector<byte> code = new(codes[x..]);
            code = Vector.ConditionalSelect(Vector.Equals(code, Vector<byte>.Zero), new Vector<byte>((byte)MaskCode.Sound), code);
            code = Vector.ConditionalSelect(Vector.Equals(new Vector<byte>(inside[x..]), Vector<byte>.Zero), Vector<byte>.Zero, code);
            Vector.ConditionalSelect(Vector.Equals(new Vector<byte>(eaten[x..]), Vector<byte>.Zero), code, new Vector<byte>((byte)MaskCode.Chewed)).CopyTo(codes[x..]);
        }

        for (; x < codes.Length; x++)
        {
            byte code = codes[x] == 0 ? (byte)MaskCode.Sound : codes[x];
            codes[x] = eaten[x] != 0 ? (byte)MaskCode.Chewed : inside[x] == 0 ? (byte)0 : code;
        }
    }

    private static long[] Counts(Mat codes)
    {
        long[] counts = new long[7];
        PixelRows<byte> rows = new(codes);
        for (int y = 0; y < rows.Rows; y++)
        {
            for (int code = 1; code < counts.Length; code++)
            {
                counts[code] += rows[y].Count((byte)code);
            }
        }

        return counts;
    }

    private static LeafShares Shares(long[] counts, double area)
    {
        double Share(MaskCode code) => area > 0 ? counts[(int)code] / area : 0;
        return new LeafShares(
            Share(MaskCode.Sound), Share(MaskCode.Speck), Share(MaskCode.Yellowed), Share(MaskCode.Browned), Share(MaskCode.Chewed), Share(MaskCode.Unassessed));
    }

    private static void Draw(Mat codes, Mat mask, Rect box)
    {
        using Mat place = new(mask, box);
        using Mat inside = new();
        Cv2.Compare(codes, Scalar.All(0), inside, CmpTypes.GT);
        codes.CopyTo(place, inside);
    }

    private static List<PointPx> OutlineOf(Mat codes, Rect box)
    {
        using Mat inside = new();
        Cv2.Compare(codes, Scalar.All(0), inside, CmpTypes.GT);
        Cv2.FindContours(inside, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        Point[]? largest = contours.MaxBy(c => Cv2.ContourArea(c));
        if (largest is null)
        {
            return [];
        }

        // Within half a pixel of the exact margin: a tenth of the corners, the same area to the eye and to the sum.
        Point[] corners = Cv2.ApproxPolyDP(largest, 0.5, true);
        return corners.Select(p => new PointPx(p.X + box.X, p.Y + box.Y)).ToList();
    }

    private static double Median(List<SpeckMark> specks)
    {
        if (specks.Count == 0)
        {
            return 0;
        }

        double[] sorted = specks.Select(s => s.DiameterPx).Order().ToArray();
        return sorted[sorted.Length / 2];
    }

    /// <summary>A leaf as drawn at full size.</summary>
    private sealed record Drawn(double AreaPx, LeafShares Shares, List<PointPx> Outline);

    private static void AddOnce(List<string> flags, string flag)
    {
        if (!flags.Contains(flag))
        {
            flags.Add(flag);
        }
    }
}
