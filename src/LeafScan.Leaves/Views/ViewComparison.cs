using LeafScan.Leaves.Needles;
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
        Cv2.WarpPerspective(later.Pixels, pixels, map, size, InterpolationFlags.Area);
        using Mat before = earlier.Foliage();
        using Mat after = new();
        Cv2.Compare(codes, new Scalar(0), after, CmpTypes.GT);
        using Mat fullBefore = Envelope.Full(before, CrownMeter.Smoothing, CrownMeter.WidestNotch);
        using Mat fullAfter = Envelope.Full(after, CrownMeter.Smoothing, CrownMeter.WidestNotch);
        double overlap = Overlap(fullBefore, fullAfter);
        using Mat full = new();
        Cv2.BitwiseOr(fullBefore, fullAfter, full);
        double inBoth = Share(full, seen);
        if (overlap < LeastOverlap || inBoth < LeastInBoth)
        {
            string because = inBoth < LeastInBoth ? "a good part of the plant is in one of them only" : "the outlines of the plant do not lie over one another";
            return new ViewComparison { Refusal = ViewMatch.Refused(match.Agreeing, because).Refusal };
        }

        LightBetween.Match(pixels, earlier.Pixels, seen, full);
        CrownSector[] first = [.. new CrownSectors(earlier.Pixels, earlier.Codes, full).All()];
        CrownSector[] second = [.. new CrownSectors(pixels, codes, full).All()];
        LeafShares sharesBefore = FoliageFigures.Shares(earlier.Codes);
        LeafShares sharesAfter = FoliageFigures.Shares(codes);
        int crown = Cv2.CountNonZero(full);
        PlantChange change = new()
        {
            Discoloured = Cv2.CountNonZero(before) == 0 || Cv2.CountNonZero(after) == 0 ? null : sharesAfter.Damage - sharesBefore.Damage,
            Thinning = CrownGaps.Share(Cv2.CountNonZero(after), crown) - CrownGaps.Share(Cv2.CountNonZero(before), crown),
            Greenness = Mean(second, first),
            Sectors = [.. first.Zip(second, (a, b) => new SectorChange(a.Side, a.Height, b.Discoloured - a.Discoloured, b.Thinning - a.Thinning, b.Greenness - a.Greenness))],
            AgreeingPlaces = match.Agreeing,
            Overlap = overlap,
        };
        return new ViewComparison
        {
            Change = change,
            Picture = ChangePicture.Draw(earlier.Pixels, earlier.Codes, pixels, codes, full, names),
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
