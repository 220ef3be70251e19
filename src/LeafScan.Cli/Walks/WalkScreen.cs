using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Walks;

namespace LeafScan.Cli.Walks;

/// <summary>What adding a walk did, for people and as a document.</summary>
internal static class WalkScreen
{
    private const int NamesShown = 10;

    /// <summary>Per plant and day a line, then the counts.</summary>
    public static void Write(Surroundings world, WalkOutcome outcome)
    {
        if (outcome.Added.Count > 0)
        {
            TextTable table = new("plant", "walk", ">photos", ">leaves", ">damage %");
            foreach (var group in outcome.Added.Where(photo => !photo.IsTagPhoto).GroupBy(photo => (photo.Plant, photo.Day)).OrderBy(group => group.Key.Day).ThenBy(group => group.Key.Plant, StringComparer.Ordinal))
            {
                int leaves = group.Sum(photo => photo.Reading.Leaves);
                double damage = leaves == 0 ? 0 : group.Sum(photo => photo.Reading.Leaves * photo.Reading.Damage) / leaves;
                table.Add(
                    group.Key.Plant ?? "(unknown)", Words.Day(group.Key.Day), Words.Number(group.Count()), Words.Number(leaves), Words.Percent(damage));
            }

            table.WriteTo(world.Out);
        }

        int tags = outcome.Added.Count(photo => photo.IsTagPhoto);
        if (tags > 0)
        {
            int unread = outcome.Added.Count(photo => photo.IsTagPhoto && photo.TagUnread);
            world.Out.WriteLine($"{Words.Count(tags, "photo")} of tags{(unread > 0 ? $", {unread} of which could not be read" : string.Empty)}.");
        }

        world.Out.WriteLine(outcome.Counts + ".");
    }

    /// <summary>Names of files that were on record, and of photos without a plant, on standard error.</summary>
    public static void WriteRemarks(Surroundings world, WalkOutcome outcome)
    {
        foreach (KnownPhoto known in outcome.AlreadyHere.Take(NamesShown))
        {
            string where = known.Day is { } day ? $", walk of {Words.Day(day)}, plant {known.Plant ?? "unknown"}" : string.Empty;
            world.Err.WriteLine(Words.OneLine($"Already here: {known.File} (same bytes as {known.SameAs}{where})"));
        }

        if (outcome.AlreadyHere.Count > NamesShown)
        {
            world.Err.WriteLine($"Already here: {outcome.AlreadyHere.Count - NamesShown} more.");
        }

        RefusalLines.Write(world, outcome.Refused);
        PlantQuestions.Write(world, [.. outcome.Added.Select(PlantQuestion.Of)]);
    }

    /// <summary>The document (schema leafscan.walk/1).</summary>
    public static object Document(string tool, string place, WalkOutcome outcome) => new
    {
        schema = "leafscan.walk/1",
        tool,
        place,
        stopped = outcome.Stopped,
        added = outcome.Added.Select(photo => new
        {
            photo.File,
            photo.Plant,
            plantBy = photo.PlantGuess.Word,
            plantBecause = photo.PlantGuess.Because,
            plantUnsure = photo.PlantUnsure,
            kind = photo.IsTagPhoto ? "tag" : "leaf",
            tagUnread = photo.TagUnread,
            date = Words.Day(photo.Day),
            leaves = photo.Reading.Leaves,
            damage = Math.Round(photo.Reading.Damage, 6),
        }),
        alreadyHere = outcome.AlreadyHere.Select(photo => new
        {
            photo.File,
            photo.SameAs,
            photo.Plant,
            date = photo.Day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        }),
        refused = outcome.Refused.Select(refusal => new { file = refusal.FileName, refusal.Reason, refusal.Advice }),
    };
}
