using LeafScan.Photos;
using LeafScan.Taps.Moves;
using OpenCvSharp;

namespace LeafScan.Taps;

/// <summary>Names the doubts about a reading.</summary>
internal static class TapDoubts
{
    private const double PatchyShare = 0.05;
    private const double BurntShare = 0.3;
    private const double SideRatio = 1.35;
    private const double StillShareMin = 0.4;

    /// <summary>Doubts that need no second photo.</summary>
    public static IReadOnlyList<string> Of(IReadOnlyList<TapShot> shots, TapReading reading, TapOptions options)
    {
        List<string> flags = [];
        void Add(bool holds, Flag flag)
        {
            if (holds && !flags.Contains(flag.Name))
            {
                flags.Add(flag.Name);
            }
        }

        // Whether a white sheet is sharp shows in its specks; the measure for leaves takes every clean sheet for blurred.
        flags.AddRange(shots.SelectMany(s => s.PhotoFlags).Where(name => name != Flag.Blurred.Name && name != Flag.TooBright.Name).Distinct());
        Add(shots.Where((shot, i) => Focus.IsBlurred(shot, options, i)).Any(), Flag.Blurred);
        Add(shots.Any(s => s.Shake is not null), Flag.Shaken);
        Add(shots.Any(s => s.BurntShare > BurntShare), Flag.TooBright);
        Add(reading.PixelsPerMm is null, Flag.NoScale);
        Add(TooSmall(reading, options), Flag.MitesTooSmall);
        Add(shots.Any(IsPatchy), Flag.LightPatchy);
        Add(shots.Any(s => Tilt(s.SheetCorners) > SideRatio), Flag.SheetTilted);
        return flags;
    }

    /// <summary>All doubts about a reading of several photos.</summary>
    public static IReadOnlyList<string> Of(TapEvidence evidence, TapReading reading, TapOptions options)
    {
        List<string> flags = [.. Of(evidence.Shots, reading, options)];
        if (Enumerable.Range(0, evidence.Moves.Count).Any(i => TapSummary.Seconds(evidence.Shots, i, options) is null))
        {
            flags.Add(Flag.SecondsUnknown.Name);
        }

        if (evidence.Partly)
        {
            flags.Add(Flag.SheetPartly.Name);
        }

        if (evidence.Copied)
        {
            flags.Add(Flag.SamePhoto.Name);
        }

        if (evidence.Moves.Any(m => m.Wind is not null))
        {
            flags.Add(Flag.WindBlown.Name);
        }

        if (evidence.Moves.Any(Disturbed))
        {
            flags.Add(Flag.SheetDisturbed.Name);
        }

        return flags;
    }

    /// <summary>True when hard edges of light hide more of the sheet than can be passed over.</summary>
    public static bool IsPatchy(TapShot shot) => shot.StepShare > PatchyShare;

    // With a scale, a mite wanted must cover enough pixels and stand out of blur and noise.
    private static bool TooSmall(TapReading reading, TapOptions options) =>
        reading.PixelsPerMm is { } mm
            ? options.SmallestMiteMm * mm < options.PixelsPerMiteMin || reading.SmallestVisibleMm > options.SmallestMiteMm
            : reading.Specks.Where(s => s.Fate == SpeckFate.Crawling).Select(s => s.DiameterPx).DefaultIfEmpty(double.MaxValue).Order().ElementAt(0) < options.PixelsPerMiteMin;

    private static bool Disturbed(ShotMoves moves)
    {
        int still = moves.Links.Count(l => l.Kind == LinkKind.Still);
        int other = moves.Gone.Count + moves.Links.Count(l => l.Kind is LinkKind.Ran or LinkKind.Blown);
        return other > 10 && still < StillShareMin * (still + other);
    }

    private static double Tilt(IReadOnlyList<Point2d> corners)
    {
        if (corners.Count != 4)
        {
            return 1;
        }

        double[] sides = [.. Enumerable.Range(0, 4).Select(i => Length(corners[i] - corners[(i + 1) % 4]))];
        return Math.Max(Ratio(sides[0], sides[2]), Ratio(sides[1], sides[3]));
    }

    private static double Ratio(double a, double b) => Math.Max(a, b) / Math.Max(1, Math.Min(a, b));

    private static double Length(Point2d step) => Math.Sqrt((step.X * step.X) + (step.Y * step.Y));
}
