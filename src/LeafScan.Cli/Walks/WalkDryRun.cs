using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Walks;

namespace LeafScan.Cli.Walks;

/// <summary>What adding a walk would do: one line a file.</summary>
internal static class WalkDryRun
{
    /// <summary>Writes the table.</summary>
    public static void Write(TextWriter writer, WalkPlan plan)
    {
        TextTable table = new("photo", "walk", "plant", "found by", "leaf", "what would happen");
        foreach (WalkFile file in plan.Files)
        {
            table.Add(file.Item.Label, plan.DayOf(file) is { } day ? Words.Day(day) : "(no day)", file.Plant.Code ?? "(unknown)", PlantQuestions.Source(file.Plant.Word) + (file.PlantUnsure ? "?" : string.Empty), LeafText.Of(file.Leaf.Age, file.Leaf.Tag), Fate(file));
        }

        table.WriteTo(writer);
    }

    /// <summary>The document (schema leafscan.walk-plan/1).</summary>
    public static object Document(string tool, string place, WalkPlan plan) => new
    {
        schema = "leafscan.walk-plan/1",
        tool,
        place,
        files = plan.Files.Select(file => new
        {
            file = file.Item.Label,
            date = plan.DayOf(file)?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            plant = file.Plant.Code,
            plantBy = file.Plant.Word,
            plantBecause = file.Plant.Because,
            plantUnsure = file.PlantUnsure,
            tags = file.Tag.Codes,
            tagUnread = file.Tag.Unread,
            leafAge = LeafText.InDocuments(file.Leaf.Age),
            leafLabel = file.Leaf.Tag,
            fate = file.IsNew ? "new" : file.Refusal is null ? "alreadyHere" : "refused",
            reason = file.Refusal?.Reason,
        }),
    };

    private static string Fate(WalkFile file) =>
        file.Refusal is { } refusal ? "refused: " + refusal.Reason
        : file.Known is { } known ? $"already here as {known.FileName}, walk of {Words.Day(known.WalkedOn)}"
        : file.TwinOf is { } twin ? $"same bytes as {twin}"
        : file.Tag.IsTagPhoto ? (file.Tag.Unread ? "added as a photo of a tag that could not be read" : "added as a photo of a tag")
        : "added";
}
