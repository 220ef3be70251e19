using System.Globalization;
using LeafScan.Cli.Commands;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Statistics;

namespace LeafScan.Cli.Screen;

/// <summary>Two months side by side for people: one line a plant, then what each answer does not prove.</summary>
internal static class CompareTable
{
    // More than these are summed up by the line for all of them together.
    private const int SentencesMost = 12;

    /// <summary>Writes the table.</summary>
    public static void Write(TextWriter writer, CompareView view)
    {
        if (view.Plants.Count == 0)
        {
            writer.WriteLine($"No plant has a measured leaf in {view.From} or {view.To}. All walks of a plant: leafscan series PLANT");
            return;
        }

        writer.WriteLine($"Mean damage over {view.Kinds.Things} in %, with 90 % ranges.");
        if (view.Kinds.Caution is { } mixed && view.Of is not null)
        {
            writer.WriteLine(mixed);
        }

        string things = view.Kinds.Things;
        TextTable table = new("plant", "place", $">{view.From}", "range", ">" + things, $">{view.To}", "range", ">" + things, ">change", "range", ">could show", $">same {things}", "range", "damage is");
        foreach ((Plant plant, MonthComparison months) in view.Plants)
        {
            table.Add(
                plant.Code,
                plant.PlaceName,
                Damage(months.Earlier),
                FigureDocument.Range(months.Earlier.DamageInterval),
                Words.Number(months.Earlier.LeafCount),
                Damage(months.Later),
                FigureDocument.Range(months.Later.DamageInterval),
                Words.Number(months.Later.LeafCount),
                months.Difference is { } difference ? Signed(difference) : "-",
                Range(months.DifferenceInterval),
                months.SmallestChange is { } smallest ? Words.Percent(smallest) : string.Empty,
                months.Tagged is { } tagged ? Signed(tagged.Difference) : string.Empty,
                Range(months.Tagged?.Interval),
                WordOf(months.Word));
        }

        table.WriteTo(writer);
        (Plant Plant, MonthComparison Months)[] open = [.. view.Plants.Where(pair => pair.Months.Word == ChangeWord.CannotTell)];
        foreach ((Plant plant, MonthComparison months) in open.Take(SentencesMost))
        {
            writer.WriteLine(Words.OneLine($"{plant.Code}: {months.Because}{More(months)}"));
        }

        if (open.Length > SentencesMost)
        {
            writer.WriteLine($"{open.Length - SentencesMost} more plants can't be told either; --json has the reasons of all.");
        }

        if (view.Of is { } group)
        {
            WriteTogether(writer, group, view.Together);
        }

        writer.WriteLine("\"Could show\": the smallest change that leaves so many and so unlike would show four times in five.");
        foreach (string caution in view.Plants.Select(pair => pair.Months.Caution).Distinct())
        {
            writer.WriteLine(caution);
        }
    }

    private static void WriteTogether(TextWriter writer, string group, GroupComparison together)
    {
        if (together.Pairs is not { } pairs)
        {
            writer.WriteLine(Words.OneLine($"Together ({group}): fewer than two plants have leaves in both months, so nothing can be said of them as a group."));
            return;
        }

        string left = together.PlantCountLeftOut > 0 ? $" ({Words.Count(together.PlantCountLeftOut, "plant")} with leaves in one month only left out)" : string.Empty;
        writer.WriteLine(Words.OneLine(
            $"Together ({group}): {Words.Count(together.PlantCount, "plant")}{left} changed by {Signed(pairs.Difference)} points on average ({Range(pairs.Interval)}). So many could show {Words.Percent(together.SmallestChange!.Value)} points.{MorePlants(together)}"));
        if (together.TaggedPairs is { } tagged)
        {
            writer.WriteLine($"  The same tagged leaves, {Words.Count(tagged.Count, "plant")}: {Signed(tagged.Difference)} points ({Range(tagged.Interval)}).");
        }
    }

    private static string MorePlants(GroupComparison together) => together.MorePlantsToSettle switch
    {
        0 => string.Empty,
        { } more => $" {Words.Count(more, "more plant")} would settle a change as large as this.",
        null => " No number of plants that we would ask for settles a change this small.",
    };

    private static string More(MonthComparison months) => (months.IsByTagged ? months.Tagged!.MoreLeaves : months.MoreLeaves) switch
    {
        null or 0 => string.Empty,
        { } more when months.IsByTagged => $" {Words.Count(more, "more tagged leaf", "more tagged leaves")} would settle a change as large as this.",
        { } more => $" {Words.Count(more, "more leaf", "more leaves")} in each month would settle a change as large as this.",
    };

    private static string Range(Interval? interval) => interval is { } range ? $"{Signed(range.Low)} to {Signed(range.High)}" : string.Empty;

    /// <summary>The answer as a name in documents: better, worse, same, cannotTell.</summary>
    public static string NameOf(ChangeWord word) => word switch
    {
        ChangeWord.Better => "better",
        ChangeWord.Worse => "worse",
        ChangeWord.Same => "same",
        _ => "cannotTell",
    };

    // "Better" would sound like healing; what is seen is less or more damage on the leaves of the photos.
    private static string WordOf(ChangeWord word) => word switch
    {
        ChangeWord.Better => "less",
        ChangeWord.Worse => "more",
        ChangeWord.Same => "the same",
        _ => "can't tell",
    };

    private static string Damage(LeafFigures figures) => figures.Damage is { } damage ? Words.Percent(damage) : "-";

    private static string Signed(double share) => (Math.Round(share * 100, 1) + 0.0).ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture);
}
