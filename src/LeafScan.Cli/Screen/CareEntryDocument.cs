using System.Globalization;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Screen;

/// <summary>The document leafscan.care/1: one care entry as it stands on record.</summary>
internal static class CareEntryDocument
{
    /// <summary>Builds it.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="entry">The entry.</param>
    /// <param name="sameGroupTwice">Mode-of-action group that was used twice in a row; null for none.</param>
    public static object Of(Plant plant, CareEntry entry, string? sameGroupTwice) => new
    {
        schema = "leafscan.care/1",
        tool = ToolVersion.Current,
        number = entry.Id,
        code = plant.Code,
        place = plant.PlaceName,
        date = Words.Day(entry.DoneOn),
        at = entry.Details.At?.ToString("HH:mm", CultureInfo.InvariantCulture),
        what = Word(entry),
        note = entry.Note,
        active = entry.Details.Active,
        modeGroup = entry.Details.ModeGroup,
        sameGroupTwice,
        labelNumber = entry.Details.LabelNumber,
        against = entry.Details.Target,
        conditions = entry.Details.Conditions,
    };

    /// <summary>Kind of care in a word.</summary>
    public static string Word(CareEntry entry) => entry.What.ToString().ToLowerInvariant();
}
