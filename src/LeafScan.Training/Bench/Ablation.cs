using System.Globalization;
using System.Text;
using LeafScan.Leaves;

namespace LeafScan.Training.Bench;

/// <summary>The same photos measured with everything and with one part switched off at a time.</summary>
/// <param name="Whole">With everything.</param>
/// <param name="Without">For each part, the run without it.</param>
public sealed record Ablation(BenchDocument Whole, IReadOnlyList<(MeasuringPart Part, BenchDocument Run)> Without)
{
    private static readonly string[] Shown = ["speckF1", "speckCountCcc", "stippledCcc", "damageCcc", "damageMae", "chewedMae", "falseStipple"];

    /// <summary>Measures.</summary>
    /// <param name="cases">Photos with full truth; others tell nothing here and are left out.</param>
    /// <param name="options">How to measure with everything.</param>
    /// <param name="parts">Parts to switch off.</param>
    /// <param name="said">Told progress.</param>
    /// <param name="cancel">Stops between photos.</param>
    public static Ablation Over(IReadOnlyList<TruthCase> cases, MeasureOptions options, IReadOnlyList<MeasuringPart> parts, Action<string> said, CancellationToken cancel)
    {
        TruthCase[] full = [.. cases.Where(c => c.Kind == TruthKind.Full)];
        BenchDocument whole = BenchRun.Over(full, options, said, cancel);
        List<(MeasuringPart, BenchDocument)> without = [];
        foreach (MeasuringPart part in parts)
        {
            said($"without {part.Name}");
            without.Add((part, BenchRun.Over(full, part.Without(options), said, cancel)));
        }

        return new Ablation(whole, without);
    }

    /// <summary>One table for all photos and one for each set, as Markdown. A star marks what is clearly worse, two what is clearly better, without the part.</summary>
    public string Table()
    {
        StringBuilder text = new();
        foreach (string group in Whole.Groups.Select(g => g.Name).Where(n => n == "all with full truth" || n.StartsWith("set ", StringComparison.Ordinal)))
        {
            if (group != "all with full truth" && Whole.Groups.Count(g => g.Name.StartsWith("set ", StringComparison.Ordinal)) == 1)
            {
                continue;
            }

            text.Append(CultureInfo.InvariantCulture, $"{char.ToUpperInvariant(group[0])}{group[1..]}, {Whole.Groups.First(g => g.Name == group).Photos} photos:\n\n");
            text.Append("| measured | speck F1 | count CCC | stippled CCC | damage CCC | damage error, points | chewed error, points | false stipple on clean leaves, % |\n");
            text.Append("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n");
            Line(text, "with everything", Whole, group, null);
            foreach ((MeasuringPart part, BenchDocument run) in Without)
            {
                Line(text, part.Words, run, group, Whole);
            }

            text.Append('\n');
        }

        return text.ToString();
    }

    private static void Line(StringBuilder text, string words, BenchDocument run, string group, BenchDocument? whole)
    {
        Dictionary<string, string> verdicts = whole is null ? [] : Verdicts(Only(whole, group), Only(run, group));
        FigureGroup figures = run.Groups.First(g => g.Name == group);
        text.Append("| ").Append(words);
        foreach (string name in Shown)
        {
            string star = verdicts.GetValueOrDefault(name) switch { "worse" => "\\*", "better" => "\\*\\*", _ => "" };
            text.Append(" | ").Append(Value(figures[name]?.Value, name)).Append(star);
        }

        text.Append(" |\n");
    }

    private static Dictionary<string, string> Verdicts(BenchDocument whole, BenchDocument run)
        => RunComparison.Of(whole, run).ToDictionary(c => c.Metric.Name, c => c.Verdict);

    private static BenchDocument Only(BenchDocument run, string group)
        => group.StartsWith("set ", StringComparison.Ordinal) ? run with { Photos = [.. run.Photos.Where(p => p.Set == group[4..])] } : run;

    private static string Value(double? value, string name)
        => value is not { } v ? "-"
            : name is "damageMae" or "chewedMae" or "falseStipple" ? (100 * v).ToString("0.00", CultureInfo.InvariantCulture)
            : v.ToString("0.000", CultureInfo.InvariantCulture);
}
