using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Overlay;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.WholePlant;
using OpenCvSharp;

namespace LeafScan.Leaves.Views;

/// <summary>Two photos of one plant lined up, what has changed, and a picture of it. Owns its pictures.</summary>
public sealed class ViewComparison : IDisposable
{
    // Less overlap of the outlines than this is another plant or another side.
    private const double LeastOverlap = 0.6;

    // Less of the crown than this in both photos says nothing about the whole.
    private const double LeastInBoth = 0.9;

    /// <summary>What has changed; null when the views cannot be lined up.</summary>
    public PlantChange? Change { get; private init; }

    /// <summary>Why they cannot be lined up, and what to do; null when they can.</summary>
    public (string Reason, string Advice)? Refusal { get; private init; }

    /// <summary>Both photos lined up and the map of change beside them, 8-bit B, G, R; null when they cannot be lined up. Disposed with this.</summary>
    public Mat? Picture { get; private init; }

    /// <summary>Compares.</summary>
    /// <param name="earlier">The earlier photo; not disposed.</param>
    /// <param name="later">The later photo; not disposed.</param>
    /// <param name="names">What is written over each, such as the days.</param>
    public static ViewComparison Of(PlantView earlier, PlantView later, (string Earlier, string Later) names)
    {
        ViewMatch match = ViewMatch.Find(earlier.Pixels, later.Pixels);
        if (match.Refusal is not null)
        {
            return new ViewComparison { Refusal = match.Refusal };
        }

        using Mat map = match.ToMat();
        Size size = earlier.Pixels.Size();
        using Mat all = new(later.Pixels.Size(), MatType.CV_8UC1, Scalar.All(255));
        using Mat seen = Laid(all, map, size);
        using Mat codes = Laid(later.Codes, map, size);
        using Mat pixels = new();
        Cv2.WarpPerspective(later.Pixels, pixels, map, size, InterpolationFlags.Area, BorderTypes.Constant, OverlayLegend.Paper);
        using Mat earlierCodes = earlier.Codes.Clone();
        using Mat unseen = Not(seen);
        earlierCodes.SetTo(Scalar.All(0), unseen);
        using Mat both = Crown(earlierCodes, codes, out double _);
        LightBetween.Match(pixels, earlier.Pixels, seen, both);
        Alike.Settle(earlier.Pixels, earlierCodes, pixels, codes);
        using Mat full = Crown(earlierCodes, codes, out double overlap);
        using Mat whole = earlier.Foliage();
        double inBoth = Share(whole, seen);
        if (overlap < LeastOverlap || inBoth < LeastInBoth)
        {
            string because = inBoth < LeastInBoth ? "a good part of the plant is in one of them only" : "the outlines of the plant do not lie over one another";
            return new ViewComparison { Refusal = ViewMatch.Refused(match.Agreeing, because).Refusal };
        }

        CrownSector[] first = [.. new CrownSectors(earlier.Pixels, earlierCodes, full, CrownGaps.Guessed).All()];
        CrownSector[] second = [.. new CrownSectors(pixels, codes, full, CrownGaps.Guessed).All()];
        LeafShares sharesBefore = FoliageFigures.Shares(earlierCodes);
        LeafShares sharesAfter = FoliageFigures.Shares(codes);
        (int crown, int before, int after) = (Cv2.CountNonZero(full), Cv2.CountNonZero(earlierCodes), Cv2.CountNonZero(codes));
        PlantChange change = new()
        {
            Discoloured = before == 0 || after == 0 ? null : sharesAfter.Damage - sharesBefore.Damage,
            Thinning = CrownGaps.Guessed(after, crown) - CrownGaps.Guessed(before, crown),
            Greenness = Mean(second, first),
            Sectors = [.. first.Zip(second, (a, b) => new SectorChange(a.Side, a.Height, b.Discoloured - a.Discoloured, b.Thinning - a.Thinning, b.Greenness - a.Greenness))],
            AgreeingPlaces = match.Agreeing,
            Overlap = overlap,
        };
        return new ViewComparison
        {
            Change = change,
            Picture = ChangePicture.Draw(earlier.Pixels, earlierCodes, pixels, codes, full, names),
        };
    }

    /// <inheritdoc />
    public void Dispose() => Picture?.Dispose();

    private static double? Mean(CrownSector[] second, CrownSector[] first)
    {
        double[] changes = [.. first.Zip(second, (a, b) => b.Greenness - a.Greenness).OfType<double>()];
        return changes.Length == 0 ? null : changes.Average();
    }

    private static Mat Laid(Mat picture, Mat map, Size size)
    {
        Mat laid = new();
        Cv2.WarpPerspective(picture, laid, map, size, InterpolationFlags.Nearest);
        return laid;
    }

    // The crown's outline in either photo, and how much both have of it.
    private static Mat Crown(Mat earlier, Mat later, out double overlap)
    {
        using Mat first = Full(earlier);
        using Mat second = Full(later);
        overlap = Overlap(first, second);
        Mat either = new();
        Cv2.BitwiseOr(first, second, either);
        return either;
    }

    private static Mat Full(Mat codes)
    {
        using Mat foliage = new();
        Cv2.Compare(codes, new Scalar(0), foliage, CmpTypes.GT);
        return Envelope.Full(foliage, CrownMeter.Smoothing, CrownMeter.WidestNotch);
    }

    private static Mat Not(Mat mask)
    {
        Mat not = new();
        Cv2.BitwiseNot(mask, not);
        return not;
    }

    private static double Overlap(Mat a, Mat b)
    {
        using Mat both = new();
        using Mat either = new();
        Cv2.BitwiseAnd(a, b, both);
        Cv2.BitwiseOr(a, b, either);
        return Cv2.CountNonZero(both) / (double)Math.Max(1, Cv2.CountNonZero(either));
    }

    private static double Share(Mat of, Mat inside)
    {
        using Mat both = new();
        Cv2.BitwiseAnd(of, inside, both);
        return Cv2.CountNonZero(both) / (double)Math.Max(1, Cv2.CountNonZero(of));
    }
}
