using System.Globalization;
using LeafScan.Frame;
using LeafScan.Taps;
using LeafScan.Training.Rendering.TapSheets;
using OpenCvSharp;

namespace LeafScan.Training.Bench.Taps;

/// <summary>How well one rendered pair was read.</summary>
/// <param name="Walkers">Mites that crawled and are whole in both photos.</param>
/// <param name="Found">Those of them that were found where they are.</param>
/// <param name="False">Called crawling, but no mite that moved.</param>
/// <param name="Debris">Things that were called something and are no walkers.</param>
/// <param name="Reported">The count that was given.</param>
/// <param name="Low">Lower end of its interval.</param>
/// <param name="High">Upper end.</param>
/// <param name="AlignmentErrorPx">Root mean square of how far the true and the found alignment differ over the sheet; NaN when refused.</param>
/// <param name="Predators">Predators that ran and are whole in both photos.</param>
/// <param name="PredatorsSaid">Possible predators reported.</param>
/// <param name="Refused">Why it was refused; null when it was read.</param>
/// <param name="Flags">Doubts.</param>
public sealed record TapScore(
    int Walkers, int Found, int False, int Debris, int Reported, int Low, int High, double AlignmentErrorPx, int Predators, int PredatorsSaid, string? Refused, IReadOnlyList<string> Flags)
{
    /// <summary>True when the interval holds the truth.</summary>
    public bool Covered => Walkers >= Low && Walkers <= High;

    /// <summary>Mite-like specks without a partner.</summary>
    public int SeenOnce { get; init; }

    /// <summary>Each thing that was wrongly called crawling, in words.</summary>
    public IReadOnlyList<string> Mistakes { get; init; } = [];

    /// <summary>Milliseconds that opening both photos took.</summary>
    public double DecodeMs { get; init; }

    /// <summary>Milliseconds that reading them took.</summary>
    public double ReadMs { get; init; }

    /// <summary>What became of each walker that was not found, in words.</summary>
    public IReadOnlyList<string> Missed { get; init; } = [];

    // A walker is found when it was seen to leave a place this near to the truth; which of two that crossed went where does not count.
    private const double NearPx = 3;

    /// <summary>Compares a reading with what was rendered.</summary>
    /// <param name="spec">What was rendered.</param>
    /// <param name="outcome">What was read.</param>
    /// <param name="photos">Photos in all; between the first and the last what walks goes evenly.</param>
    public static TapScore Of(TapSpec spec, TapOutcome outcome, int photos = 2)
    {
        PlaneMap first = TapGeometry.ToPhoto(spec, spec.First);
        PlaneMap second = TapGeometry.ToPhoto(spec, spec.Second);
        PlaneMap back = TapGeometry.FirstToSecond(spec).Back();
        List<(TapThing Thing, Point2d A, Point2d B, bool Both)> things = [.. spec.Things.Select(thing =>
        {
            Point2d a = TapGeometry.Place(thing, first, false).At;
            Point2d b = TapGeometry.Place(thing, second, true).At;
            return (thing, a, back.Map(b.X, b.Y), Inside(spec, a) && Inside(spec, b));
        })];
        int walkers = things.Count(t => t.Both && t.Thing.Crawls && t.Thing.Kind == TapKind.Mite);
        int predators = things.Count(t => t.Both && t.Thing.Crawls && t.Thing.Kind == TapKind.Predator);
        if (outcome.Reading is not { } reading)
        {
            return new TapScore(walkers, 0, 0, 0, 0, 0, 0, double.NaN, predators, 0, outcome.Refusal!.Reason, []);
        }

        HashSet<int> taken = [];
        int found = 0;
        int wrong = 0;
        List<string> mistakes = [];
        foreach (TapSpeck speck in reading.Specks.Where(s => s.Fate == SpeckFate.Crawling))
        {
            int match = things.FindIndex(t => !taken.Contains(things.IndexOf(t)) && t.Thing.Kind == TapKind.Mite && t.Thing.WayMm > 0 && OnWay(t.A, t.B, photos, speck));
            if (match < 0)
            {
                wrong++;
                string kinds = string.Join(' ', things.Where(t => Near(t.A, speck.X, speck.Y) || Near(t.B, speck.ToX, speck.ToY)).Select(t => string.Create(CultureInfo.InvariantCulture, $"{t.Thing.Kind} {t.Thing.LengthMm:0.00} moved {t.Thing.WayMm:0.0}")));
                mistakes.Add(string.Create(CultureInfo.InvariantCulture, $"at {speck.X:0} {speck.Y:0} moved {speck.MovedPx:0.0} px, diameter {speck.DiameterPx:0.0}: {kinds}"));
                continue;
            }

            // A mite that moved by less than half its length is alive, but the truth does not count it: neither right nor wrong.
            taken.Add(match);
            found += things[match].Both && things[match].Thing.Crawls ? 1 : 0;
        }

        return new TapScore(
            walkers, found, wrong, reading.Debris!.Value + wrong, reading.Crawling!.Value, reading.CrawlingLow!.Value, reading.CrawlingHigh!.Value,
            Error(spec, reading.Alignments.Select(map => new PlaneMap([.. map])).Aggregate((before, next) => next.After(before))), predators, reading.PossiblePredators!.Value, null, reading.Flags)
        {
            Mistakes = mistakes,
            SeenOnce = reading.SeenOnce!.Value,
            Missed =
            [
                .. things.Where((t, i) => t.Both && t.Thing.Crawls && t.Thing.Kind == TapKind.Mite && !taken.Contains(i))
                    .Select(t => string.Create(CultureInfo.InvariantCulture, $"{t.Thing.LengthMm:0.00} mm at {t.A.X:0} {t.A.Y:0} ({FateAt(reading, t.A)}), {t.Thing.WayMm:0.0} mm to {t.B.X:0} {t.B.Y:0} ({FateAt(reading, t.B)})")),
            ],
        };
    }

    private static string FateAt(TapReading reading, Point2d at) =>
        reading.Specks.FirstOrDefault(s => Near(at, s.X, s.Y)) is { } from ? $"{from.Fate} from here"
        : reading.Specks.FirstOrDefault(s => Near(at, s.ToX, s.ToY)) is { } to ? $"{to.Fate} to here"
        : "unseen";

    // A speck's place is where its longest step began.
    private static bool OnWay(Point2d from, Point2d to, int photos, TapSpeck speck) =>
        Enumerable.Range(0, photos - 1).Any(i => Near(from + ((to - from) * (i / (photos - 1.0))), speck.X, speck.Y));

    private static bool Near(Point2d at, double x, double y) => ((at.X - x) * (at.X - x)) + ((at.Y - y) * (at.Y - y)) < NearPx * NearPx;

    private static bool Inside(TapSpec spec, Point2d at) => at.X > 3 && at.Y > 3 && at.X < spec.WidthPx - 4 && at.Y < spec.HeightPx - 4;

    private static double Error(TapSpec spec, PlaneMap found)
    {
        PlaneMap truth = TapGeometry.FirstToSecond(spec);
        double sum = 0;
        int count = 0;
        for (int y = 1; y < 8; y++)
        {
            for (int x = 1; x < 8; x++)
            {
                Point2d off = truth.Map(x * spec.WidthPx / 8.0, y * spec.HeightPx / 8.0) - found.Map(x * spec.WidthPx / 8.0, y * spec.HeightPx / 8.0);
                sum += (off.X * off.X) + (off.Y * off.Y);
                count++;
            }
        }

        return Math.Sqrt(sum / count);
    }
}
