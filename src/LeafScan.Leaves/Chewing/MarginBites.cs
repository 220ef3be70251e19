using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>
/// Dents of the margin that are bites. Candidates lie under the outline that a disc rolled round the leaf draws, once with
/// a wide disc (long eaten stretches) and once with a smaller one (single bites); <see cref="BiteJudge"/> weighs each. The missing piece of a bite
/// is closed by a Hermite curve that leaves and meets the margin in the directions it had before the dent.
/// </summary>
internal sealed class MarginBites
{
    // From this evidence on a long dent needs no second opinion, as a logarithm of odds.
    private const double BeyondDoubt = 1.5;

    private MarginBites(IReadOnlyList<Point[]> polygons, bool straightCut)
    {
        Polygons = polygons;
        StraightCut = straightCut;
    }

    /// <summary>Each bite as a closed polygon, pixels of the mask.</summary>
    public IReadOnlyList<Point[]> Polygons { get; }

    /// <summary>A long straight cut was seen.</summary>
    public bool StraightCut { get; }

    /// <summary>Bites of a mask without holes.</summary>
    /// <param name="mask">One blade: 255 leaf, 0 elsewhere.</param>
    /// <param name="smallestPx">Least area of a bite.</param>
    /// <param name="options">Limits.</param>
    public static MarginBites Find(Mat mask, double smallestPx, ChewOptions options)
    {
        double area = Cv2.CountNonZero(mask);
        Cv2.FindContours(mask, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        Point[]? margin = contours.MaxBy(c => c.Length);
        if (margin is null || margin.Length < 40)
        {
            return new MarginBites([], false);
        }

        MarginLine line = MarginLine.Of(margin);
        double side = Math.Sqrt(area);
        double smallestNotch = 0.5 * options.SmallestShare * area;
        List<Dent> close = DentFinder.Find(line, Envelope.Depths(mask, margin, 0.16 * side), smallestNotch);
        List<Dent> wide = DentFinder.Find(line, Envelope.Depths(mask, margin, 0.5 * side), smallestNotch);
        Teeth? teeth = Teeth.Of(close, options.TeethFrom);
        MirrorOpinion mirror = new(mask);
        List<Dent> bites = [];
        foreach (Dent dent in wide.Concat(close))
        {
            double evidence = BiteJudge.Evidence(dent, line, teeth, side);
            bool doubtful = teeth is null && !close.Contains(dent) && evidence < BeyondDoubt;
            if (dent.AreaPx >= smallestPx
                && evidence > options.LeastEvidence
                && !bites.Any(b => b.Overlaps(dent, line.Length))
                && !(doubtful && (mirror.HasTwin(line, dent, wide) || line.IsStraightBeside(dent, 0.2 * side))))
            {
                bites.Add(dent);
            }
        }

        if (teeth is not null)
        {
            bites = EatenStretches.Grow(bites, wide, teeth, line, side, options.LeastEvidence);
        }

        return new MarginBites(bites.Select(b => Rebuilt.Piece(line, b, teeth, side)).ToList(), line.HasStraightCut(side));
    }
}
