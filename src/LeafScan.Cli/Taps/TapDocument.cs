using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Taps;

namespace LeafScan.Cli.Taps;

/// <summary>The document leafscan.tap/1.</summary>
internal static class TapDocument
{
    /// <summary>Builds it.</summary>
    /// <param name="files">Names of the photos that were read, in order.</param>
    /// <param name="reading">The reading, or null.</param>
    /// <param name="refused">What was refused.</param>
    /// <param name="plant">The plant it was to be kept for, or null.</param>
    /// <param name="kept">The entry on record, or null.</param>
    public static object Of(IReadOnlyList<string> files, TapReading? reading, IReadOnlyList<PhotoRefusal> refused, Plant? plant = null, TapOnRecord? kept = null) => new
    {
        schema = "leafscan.tap/1",
        tool = ToolVersion.Current,
        photos = files,
        crawling = reading?.Crawling,
        crawlingLow = reading?.CrawlingLow,
        crawlingHigh = reading?.CrawlingHigh,
        debris = reading?.Debris,
        possiblePredators = reading?.PossiblePredators,
        seenOnce = reading?.SeenOnce,
        candidates = reading?.Candidates,
        seconds = reading?.Seconds,
        alignmentErrorPx = Round(reading?.AlignmentErrorPx),
        pixelsPerMm = Round(reading?.PixelsPerMm),
        smallestVisiblePx = Round(reading?.SmallestVisiblePx),
        smallestVisibleMm = Round(reading?.SmallestVisibleMm),
        judgedShare = Round(reading?.JudgedShare),
        flags = reading?.Flags ?? [],
        code = plant?.Code,
        place = plant?.PlaceName,
        number = kept?.Id,
        date = kept is null ? null : Words.Day(kept.Tap.Day),
        mitesByLens = kept?.Tap.MitesByLens,
        specks = (reading?.Specks ?? []).Select(Row),
        refused = refused.Select(r => new { file = r.FileName, reason = r.Reason, advice = r.Advice }),
    };

    private static object[] Row(TapSpeck speck) =>
        [Math.Round(speck.X, 1), Math.Round(speck.Y, 1), Math.Round(speck.DiameterPx, 1), Math.Round(speck.MovedPx, 1), Word(speck.Fate)];

    private static string Word(SpeckFate fate) => fate switch
    {
        SpeckFate.Crawling => "crawling",
        SpeckFate.PossiblePredator => "possiblePredator",
        SpeckFate.Blown => "blown",
        SpeckFate.Gone => "gone",
        SpeckFate.Come => "come",
        SpeckFate.Candidate => "candidate",
        _ => "debris",
    };

    private static double? Round(double? value) => value is { } number && double.IsFinite(number) ? Math.Round(number, 3) : null;
}
