using LeafScan.Photos;
using LeafScan.Taps.Moves;
using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps;

/// <summary>From what was seen to the reading.</summary>
internal static class TapSummary
{
    /// <summary>The reading of one photo: candidates and no count.</summary>
    public static TapOutcome OfOne(TapShot shot, TapOptions options)
    {
        double? scale = Scale(shot, options, 0);
        TapReading reading = Basis(shot, options, scale) with
        {
            Specks = [.. shot.Spots.Select(spot => Speck(spot, MiteLike(spot, options, scale) ? SpeckFate.Candidate : SpeckFate.Debris, scale))],
            JudgedShare = shot.JudgedShare,
        };
        return new TapOutcome(reading with { Flags = [Flag.OnePhotoOnly.Name, .. TapDoubts.Of([shot], reading, options)] }, null);
    }

    /// <summary>The reading of several photos.</summary>
    public static TapOutcome Of(TapEvidence evidence, TapOptions options)
    {
        TapShot first = evidence.Shots[0];
        double? scale = Scale(first, options, 0);
        double[] toFirst = [.. evidence.ToFirst.Select((map, i) => map.ScaleAt(evidence.Shots[i].WidthPx / 2.0, evidence.Shots[i].HeightPx / 2.0))];
        List<Track> tracks = Tracks.Join([.. evidence.Shots.Select(s => s.Spots.Count)], evidence.Moves, toFirst);
        Creeping.Mark(tracks, evidence, options);
        HashSet<int> unseen = [.. evidence.Moves[0].Unseen];
        List<TapSpeck> specks = [];
        int unpaired = 0;
        foreach (Track track in tracks.Where(t => t.Shot > 0 || !unseen.Contains(t.Spot) || t.Linked))
        {
            Spot spot = evidence.Shots[track.Shot].Spots[track.Spot];
            SpeckFate fate = FateOf(track);
            unpaired += fate is SpeckFate.Gone or SpeckFate.Come && Sure(spot, evidence.Shots[track.Shot], options, scale) ? 1 : 0;
            specks.Add(Speck(evidence, track, spot, fate, toFirst[track.Shot], scale));
        }

        int crawling = specks.Count(s => s.Fate == SpeckFate.Crawling);

        // A walker is lost when a hard edge of light hides it in either photo of a pair, and the edges do not lie at the same place.
        double hidden = Math.Min(0.9, Enumerable.Range(0, evidence.Moves.Count).Min(i => evidence.Shots[i].StepShare + evidence.Shots[i + 1].StepShare));
        double smallest = evidence.Shots.Select((shot, i) => SmallestVisible(shot, options) * toFirst[i]).Max();
        bool blurred = evidence.Shots.Where((shot, i) => Focus.IsBlurred(shot, options, i)).Any();
        (int low, int high) = CountInterval.Of(crawling, unpaired, new CountLosses
        {
            Faint = smallest / scale is { } visibleMm ? FaintMites.Share(visibleMm, options.UsualMiteMm) : FaintMites.ShareUnscaled,
            Blurred = blurred,
            BlurredUnscaled = blurred && scale is null,
            Unjudged = hidden,
            Patchy = evidence.Shots.Any(TapDoubts.IsPatchy),
            Windy = evidence.Moves.Any(m => m.Wind is not null),
            Shaken = evidence.Shots.Any(s => s.Shake is not null),
        });
        TapReading reading = Basis(first, options, scale) with
        {
            SmallestVisiblePx = smallest,
            SmallestVisibleMm = smallest / scale,
            Crawling = crawling,
            CrawlingLow = low,
            CrawlingHigh = high,
            Debris = specks.Count(s => s.Fate is SpeckFate.Debris or SpeckFate.Blown),
            PossiblePredators = specks.Count(s => s.Fate == SpeckFate.PossiblePredator),
            SeenOnce = unpaired,
            Alignments = [.. evidence.Maps.Select(map => map.Values)],
            AlignmentErrorPx = evidence.ErrorsPx.Max(),
            Seconds = Seconds(evidence.Shots, 0, options),
            JudgedShare = first.JudgedShare * evidence.Overlap,
            Specks = specks,
        };
        return new TapOutcome(reading with { Flags = TapDoubts.Of(evidence, reading, options) }, null);
    }

    /// <summary>Pixels per mm in the middle of a photo; null when unknown.</summary>
    public static double? Scale(TapShot shot, TapOptions options, int number) =>
        options.Sheets.ElementAtOrDefault(number)?.PixelsPerMmAt(shot.WidthPx / 2.0, shot.HeightPx / 2.0);

    /// <summary>Seconds between a photo and the next; null when nothing says them.</summary>
    public static double? Seconds(IReadOnlyList<TapShot> shots, int i, TapOptions options)
    {
        if (options.SecondsBetween is { } said)
        {
            return said;
        }

        if (shots[i].Taken is not { } first || shots[i + 1].Taken is not { } second)
        {
            return null;
        }

        double seconds = Math.Abs((second.Local - first.Local).TotalSeconds);
        return seconds is >= 1 and <= 600 ? seconds : null;
    }

    /// <summary>Seconds that a walk may have lasted: the clock of a camera counts whole seconds, so one more is possible.</summary>
    public static double SecondsLimit(IReadOnlyList<TapShot> shots, int i, TapOptions options) =>
        options.SecondsBetween ?? (Seconds(shots, i, options) + 1) ?? options.SecondsAssumed;

    /// <summary>True for a speck of a mite's size and shape.</summary>
    public static bool MiteLike(Spot spot, TapOptions options, double? scale) =>
        !spot.Coarse
        && (scale is not { } mm || (spot.DiameterPx >= 0.5 * options.SmallestMiteMm * mm && spot.DiameterPx <= 1.2 * options.LargestMiteMm * mm));

    private static bool Sure(Spot spot, TapShot shot, TapOptions options, double? scale) =>
        MiteLike(spot, options, scale) && spot.Peak > options.CrawlerShade(shot.Map.Noise);

    private static SpeckFate FateOf(Track track) => !track.Linked
        ? track.Shot == 0 ? SpeckFate.Gone : SpeckFate.Come
        : track.Did switch
        {
            LinkKind.Crawled => SpeckFate.Crawling,
            LinkKind.Ran => SpeckFate.PossiblePredator,
            LinkKind.Blown => SpeckFate.Blown,
            _ => SpeckFate.Debris,
        };

    private static TapReading Basis(TapShot first, TapOptions options, double? scale)
    {
        double smallest = SmallestVisible(first, options);
        return new TapReading
        {
            Candidates = first.Spots.Count(spot => MiteLike(spot, options, scale)),
            PixelsPerMm = scale,
            SmallestVisiblePx = smallest,
            SmallestVisibleMm = smallest / scale,
        };
    }

    /// <summary>Diameter of the smallest thing that stands out of blur and noise, pixels.</summary>
    // A small dark disc of shade c and diameter d, spread by blur s, peaks at c d^2 / (8 s^2); it must reach what a walker needs.
    public static double SmallestVisible(TapShot shot, TapOptions options)
    {
        // A pale green mite on white paper, in the numbers of an sRGB photo.
        const double MiteShade = 0.35;
        double[] spreads = [.. shot.Spots.Where(s => !s.Coarse && s.Peak > 2 * shot.Threshold).Select(s => s.Spread).Order()];
        double squared = Math.Max(shot.PointSpread, spreads.Length < 5 ? 2.5 : spreads[spreads.Length / 10]);
        return Math.Max(1, Math.Sqrt(8 * squared * options.CrawlerShade(shot.Map.Noise) / MiteShade));
    }

    private static TapSpeck Speck(Spot spot, SpeckFate fate, double? scale) =>
        new(spot.X, spot.Y, spot.DiameterPx, 0, fate) { DiameterMm = spot.DiameterPx / scale };

    private static TapSpeck Speck(TapEvidence evidence, Track track, Spot spot, SpeckFate fate, double zoom, double? scale)
    {
        Point2d from = Place(evidence, track.From ?? (track.Shot, track.Spot));
        Point2d to = track.To is { } there ? Place(evidence, there) : from;
        double diameter = spot.DiameterPx * zoom;
        return new TapSpeck(from.X, from.Y, diameter, track.MovedPx, fate)
        {
            ToX = to.X,
            ToY = to.Y,
            DiameterMm = diameter / scale,
            MovedMm = track.MovedPx / scale,
        };
    }

    private static Point2d Place(TapEvidence evidence, (int Shot, int Spot) at)
    {
        Spot spot = evidence.Shots[at.Shot].Spots[at.Spot];
        return evidence.ToFirst[at.Shot].Map(spot.X, spot.Y);
    }
}
