using System.Globalization;
using System.Text;

namespace LeafScan.Training.Fuzz;

/// <summary>What a run found, as Markdown and as a document.</summary>
internal static class FuzzTable
{
    /// <summary>The table; with each kind of damage when asked.</summary>
    public static string Markdown(FuzzRun run, bool byDamage)
    {
        StringBuilder text = new();
        text.Append("| way in | files | faults | longest, s | most memory added, MB | what came of them |\n| --- | ---: | ---: | ---: | ---: | --- |\n");
        foreach (FuzzTally tally in run.Tallies)
        {
            text.Append(CultureInfo.InvariantCulture, $"| {tally.Name} | {tally.Files} | {tally.Faults} | {tally.MostSeconds:0.0} | {tally.MostAddedMb:0} | {Fates(tally.Fates)} |\n");
        }

        foreach (FuzzTally tally in byDamage ? run.Tallies : [])
        {
            text.Append(CultureInfo.InvariantCulture, $"\n| {tally.Name}: damage | what came of it |\n| --- | --- |\n");
            foreach ((string damage, SortedDictionary<string, int> fates) in tally.FatesByDamage)
            {
                text.Append(CultureInfo.InvariantCulture, $"| {damage} | {Fates(fates)} |\n");
            }
        }

        return text.ToString();
    }

    /// <summary>The document.</summary>
    public static object Document(FuzzOptions options, FuzzRun run) => new
    {
        options.Seed,
        outOfTime = run.OutOfTime,
        waysIn = run.Tallies.Select(tally => new
        {
            tally.Name,
            tally.Files,
            tally.Faults,
            longestSeconds = Math.Round(tally.MostSeconds, 2),
            mostMemoryAddedMb = tally.MostAddedMb,
            tally.Fates,
            tally.FatesByDamage,
        }),
        findings = run.Findings,
    };

    private static string Fates(IReadOnlyDictionary<string, int> fates) =>
        string.Join("; ", fates.OrderByDescending(fate => fate.Value).Select(fate => string.Create(CultureInfo.InvariantCulture, $"{fate.Value} {fate.Key}")));
}
