using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Cli.Taps;

/// <summary>The document leafscan.tap-entry/1: one tap as it stands on record.</summary>
internal static class TapEntryDocument
{
    /// <summary>Builds it.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="kept">The tap.</param>
    /// <param name="threshold">The threshold beside which it stands; null for none.</param>
    /// <param name="beside">How it stands beside that, in a sentence.</param>
    public static object Of(Plant plant, TapOnRecord kept, Threshold? threshold, string beside) => new
    {
        schema = "leafscan.tap-entry/1",
        tool = ToolVersion.Current,
        number = kept.Id,
        code = plant.Code,
        place = plant.PlaceName,
        date = Words.Day(kept.Tap.Day),
        mites = kept.LiveMites,
        mitesABranch = FigureDocument.Round((double)kept.LiveMites / kept.BranchCount),
        mitesByPhoto = kept.Tap.MitesByPhoto,
        strikes = kept.Tap.Strikes,
        branches = kept.Tap.Branches,
        predators = kept.Tap.Predators,
        hoursSinceRinse = kept.Tap.HoursSinceWet,
        sheetWidthMm = kept.Tap.SheetWidthMm,
        sheetHeightMm = kept.Tap.SheetHeightMm,
        note = kept.Tap.Note,
        threshold = threshold is null ? null : ThresholdDocument.Entry(threshold),
        beside,
    };
}
