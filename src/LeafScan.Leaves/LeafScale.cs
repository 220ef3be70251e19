using LeafScan.Frame;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves;

/// <summary>Gives a leaf reading its millimetres where something in the frame has a scale. Shares and counts stay as they are.</summary>
internal static class LeafScale
{
    private const double RimMm = 2.5;

    /// <summary>Pixels per mm of the working copy below which specks of 0.2 mm on needles have less than two and a half pixels and are not counted by length.</summary>
    internal const double LeastPxPerMmForSpecks = 12;

    /// <summary>
    /// How leaves are searched for on a sheet whose millimetres are known: smaller ones count too. Unchanged without one.
    /// </summary>
    /// <param name="options">How leaves are searched for elsewhere.</param>
    /// <param name="frame">What lies in the frame.</param>
    /// <param name="photo">Size of the photo.</param>
    public static OutlineOptions Search(OutlineOptions options, FrameReading frame, Size photo)
    {
        if (frame.Sheet is not { MarkersSeen.Count: >= 3 } sheet)
        {
            return options;
        }

        Point2d middle = sheet.ToPhoto(sheet.Sheet.Paper.WidthMm / 2, sheet.Sheet.Paper.HeightMm / 2);
        double pxPerMm = sheet.PixelsPerMmAt(middle.X, middle.Y);
        double share = options.LeastLeafMm2 * pxPerMm * pxPerMm / ((double)photo.Width * photo.Height);
        return options with { LeastLeafShare = Math.Min(options.LeastLeafShare, share) };
    }

    /// <summary>The reading with area and density, or unchanged without a scale.</summary>
    public static LeafReading Apply(LeafReading leaf, FrameReading frame)
    {
        if (AreaMm2(leaf, frame) is not { } area)
        {
            return leaf;
        }

        double judgedCm2 = area / 100 * (1 - leaf.Shares.Chewed - leaf.Shares.Unassessed);
        return leaf with
        {
            AreaMm2 = area,
            SpeckDensityPerCm2 = judgedCm2 > 0 ? leaf.SpeckCount / judgedCm2 : null,
            Flags = ReachesRim(leaf, frame) && !leaf.Flags.Contains(Flag.LeafCutOff.Name) ? [.. leaf.Flags, Flag.LeafCutOff.Name] : leaf.Flags,
        };
    }

    /// <summary>The same for a twig, whose outline runs around its needles and the gaps between them: only foliage counts.</summary>
    /// <param name="twig">Its reading.</param>
    /// <param name="frame">What lies in the frame.</param>
    /// <param name="needleLengthPx">Length of its needles in view; null where they cannot be seen one by one.</param>
    /// <param name="workScale">Pixels of the working copy per pixel of the photo.</param>
    public static LeafReading ApplyToFoliage(LeafReading twig, FrameReading frame, double? needleLengthPx, double workScale)
    {
        if (PixelsPerMm(twig, frame) is not { } pxPerMm)
        {
            return twig;
        }

        double area = twig.AreaPx / (pxPerMm * pxPerMm);
        double judgedCm2 = area / 100 * (1 - twig.Shares.Unassessed);
        double? lengthMm = needleLengthPx / pxPerMm;
        double? judgedCm = lengthMm / 10 * (1 - twig.Shares.Unassessed);
        return twig with
        {
            AreaMm2 = area,
            SpeckDensityPerCm2 = judgedCm2 > 0 ? twig.SpeckCount / judgedCm2 : null,
            NeedleLengthMm = lengthMm,
            SpecksPerCmOfNeedle = judgedCm > 0 && pxPerMm * workScale >= LeastPxPerMmForSpecks ? twig.SpeckCount / judgedCm : null,
        };
    }

    /// <summary>Pixels per mm at the middle of a leaf; null without a scale.</summary>
    public static double? PixelsPerMm(LeafReading leaf, FrameReading frame) =>
        leaf.Outline.Count == 0 ? null : frame.PixelsPerMmAt(leaf.Outline.Average(p => p.X), leaf.Outline.Average(p => p.Y));

    // On a tilted sheet the near half of a leaf has more pixels per mm than the far one: its outline is laid onto the paper.
    private static double? AreaMm2(LeafReading leaf, FrameReading frame)
    {
        if (leaf.Outline.Count < 3 || PixelsPerMm(leaf, frame) is not { } pxPerMm)
        {
            return null;
        }

        if (frame.Sheet is not { } sheet)
        {
            return leaf.AreaPx / (pxPerMm * pxPerMm);
        }

        Point2d[] outline = [.. leaf.Outline.Select(p => new Point2d(p.X, p.Y))];
        double onPhoto = Math.Abs(Signed(outline));
        return onPhoto > 0 ? leaf.AreaPx * sheet.AreaMm2(outline) / onPhoto : null;
    }

    // What hangs over the edge of the sheet is not looked at.
    private static bool ReachesRim(LeafReading leaf, FrameReading frame) =>
        frame.Sheet is { } view && leaf.Outline.Select(p => view.ToSheet(p.X, p.Y)).Any(mm =>
            mm.X < RimMm || mm.Y < RimMm || mm.X > view.Sheet.Paper.WidthMm - RimMm || mm.Y > view.Sheet.Paper.HeightMm - RimMm);

    private static double Signed(Point2d[] p)
    {
        double twice = 0;
        for (int i = 0; i < p.Length; i++)
        {
            Point2d next = p[(i + 1) % p.Length];
            twice += (p[i].X * next.Y) - (next.X * p[i].Y);
        }

        return twice / 2;
    }
}
