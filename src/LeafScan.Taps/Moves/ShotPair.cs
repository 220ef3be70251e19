using LeafScan.Frame;
using LeafScan.Taps.Lining;
using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps.Moves;

/// <summary>How a spot of one photo and one of the next belong together.</summary>
internal enum LinkKind
{
    /// <summary>It lies where it lay.</summary>
    Still,

    /// <summary>It walked as a mite does.</summary>
    Crawled,

    /// <summary>It walked faster.</summary>
    Ran,

    /// <summary>It moved as many others did.</summary>
    Blown,
}

/// <summary>A spot of the first photo and the same thing in the second.</summary>
/// <param name="A">Number of the spot in the first photo; -1 when only a place is known.</param>
/// <param name="B">Number of the spot in the second photo; -1 when only a place is known.</param>
/// <param name="MovedPx">Way in pixels of the first photo.</param>
/// <param name="Kind">What it did.</param>
internal sealed record Link(int A, int B, double MovedPx, LinkKind Kind);

/// <summary>Two photos that were lined up, with places of the second brought into the first.</summary>
internal sealed class ShotPair
{
    private readonly TapShot _first;
    private readonly TapShot _second;
    private readonly PlaneMap _back;

    /// <summary>Joins two photos.</summary>
    public ShotPair(TapShot first, TapShot second, Alignment alignment)
    {
        _first = first;
        _second = second;
        Alignment = alignment;
        _back = alignment.Map.Back();
        SecondPlaces = [.. second.Spots.Select(s => _back.Map(s.X, s.Y))];
        ZoomToSecond = alignment.Map.ScaleAt(first.WidthPx / 2.0, first.HeightPx / 2.0);
        Gain = GainOf(SpotPairs.Mutual(first.Spots, second.Spots, alignment.Map, 2));
    }

    /// <summary>How they lie over each other.</summary>
    public Alignment Alignment { get; }

    /// <summary>Spots of the first photo.</summary>
    public IReadOnlyList<Spot> First => _first.Spots;

    /// <summary>Spots of the second photo.</summary>
    public IReadOnlyList<Spot> Second => _second.Spots;

    /// <summary>Places of the second photo's spots in the first.</summary>
    public IReadOnlyList<Point2d> SecondPlaces { get; }

    /// <summary>Pixels of the second photo per pixel of the first.</summary>
    public double ZoomToSecond { get; }

    /// <summary>How much darker still spots peak in the second photo than in the first: focus and blur differ.</summary>
    public double Gain { get; }

    /// <summary>Pixels of the sheet that can be judged in the first photo.</summary>
    public double JudgedPx => Math.Max(1, _first.JudgedShare * _first.WidthPx * _first.HeightPx);

    /// <summary>Noise of the first photo's shade.</summary>
    public double FirstNoise => _first.Map.Noise;

    /// <summary>Noise of the second photo's shade.</summary>
    public double SecondNoise => _second.Map.Noise;

    /// <summary>Mass of a spot of the second photo as the first would have it.</summary>
    public double MassInFirst(Spot second) => second.Mass / (ZoomToSecond * ZoomToSecond);

    /// <summary>Share of a first spot's shade that is still there in the second photo; null when that place is not seen there.</summary>
    public double? LeftOfFirst(Spot spot) => Darkest(_second, Alignment.Map.Map(spot.PeakX, spot.PeakY)) / (spot.Peak * Gain);

    /// <summary>Share of a second spot's shade that was there already in the first photo; null when that place is not seen there.</summary>
    public double? ThereBefore(Spot spot) => Darkest(_first, _back.Map(spot.PeakX, spot.PeakY)) * Gain / spot.Peak;

    // As far around as the lining up may be off, and no farther: neighbours must not vouch for what left.
    private double? Darkest(TapShot shot, Point2d at)
    {
        double off = Math.Clamp(3 * Alignment.ErrorPx, 0.2, 1);
        double? middle = shot.Map.At(at);
        return middle is null ? null : new[]
        {
            middle, shot.Map.At(at + new Point2d(off, 0)), shot.Map.At(at + new Point2d(-off, 0)), shot.Map.At(at + new Point2d(0, off)), shot.Map.At(at + new Point2d(0, -off)),
        }.Max();
    }

    /// <summary>True when it is half as dark where a wind would have carried this spot, or where it would have come from.</summary>
    /// <param name="spot">A spot of the first photo, or of the second.</param>
    /// <param name="inFirst">Which.</param>
    /// <param name="wind">The common way, pixels of the first photo.</param>
    /// <param name="slack">How far off it may lie.</param>
    public bool Blown(Spot spot, bool inFirst, Point2d wind, double slack)
    {
        double shade = inFirst
            ? _second.Map.DarkestNear(Alignment.Map.Map(spot.X + wind.X, spot.Y + wind.Y), slack * ZoomToSecond)
            : _first.Map.DarkestNear(_back.Map(spot.X, spot.Y) - wind, slack);
        return shade >= 0.45 * spot.Peak;
    }

    private double GainOf(List<(int A, int B)> pairs)
    {
        double[] ratios = [.. pairs.Where(p => !First[p.A].Coarse && First[p.A].Peak < 0.8).Select(p => Second[p.B].Peak / First[p.A].Peak).Order()];
        return ratios.Length < 5 ? 1 : Math.Clamp(ratios[ratios.Length / 2], 0.4, 2.5);
    }
}
