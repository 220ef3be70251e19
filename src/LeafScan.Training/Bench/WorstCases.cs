using System.Globalization;
using System.Text;

namespace LeafScan.Training.Bench;

/// <summary>The photos that the measuring gets most wrong: they teach more than any mean.</summary>
public static class WorstCases
{
    // With fewer specks than this one glint decides over the score.
    private const int FewestSpecks = 20;

    /// <summary>Photos with the largest error of damage, worst first. A refused photo has no error.</summary>
    /// <param name="rows">Rows of a run.</param>
    /// <param name="count">How many.</param>
    public static IReadOnlyList<PhotoRow> ByDamage(IReadOnlyList<PhotoRow> rows, int count = 10)
        => [.. rows.Where(r => Damage(r) is { Measured: not null }).OrderByDescending(r => Math.Abs(Error(r))).ThenBy(r => r.Key, StringComparer.Ordinal).Take(count)];

    /// <summary>Photos with the lowest F1 of specks among those with at least twenty true or measured specks, worst first.</summary>
    /// <param name="rows">Rows of a run.</param>
    /// <param name="count">How many.</param>
    public static IReadOnlyList<PhotoRow> BySpecks(IReadOnlyList<PhotoRow> rows, int count = 10)
        => [.. rows.Where(r => r.Kind == TruthKind.Full && r.SpecksTrue is not null && r.Measured && Math.Max(r.SpecksTrue.Value, r.SpecksFound) >= FewestSpecks)
            .OrderBy(SpeckF1).ThenByDescending(r => Math.Max(r.SpecksTrue!.Value, r.SpecksFound)).Take(count)];

    /// <summary>F1 of one photo's specks, 0..1.</summary>
    public static double SpeckF1(PhotoRow row)
        => row.SpecksFound + row.SpecksTrue is > 0 and int sum ? 2.0 * row.SpecksMatched / sum : 1;

    /// <summary>A table with the numbers of each photo.</summary>
    /// <param name="title">What they are worst in.</param>
    /// <param name="rows">The photos.</param>
    public static string Table(string title, IReadOnlyList<PhotoRow> rows)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"{title}:\n\n| photo | damage true | measured | stippled true | measured | yellowed true | measured | browned true | measured | specks true | found | matched | outline IoU |\n");
        text.Append("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n");
        foreach (PhotoRow row in rows)
        {
            text.Append("| ").Append(row.Key);
            foreach (string name in (string[])["damage", "stippled", "yellowed", "browned"])
            {
                SharePair? pair = row.Shares.GetValueOrDefault(name);
                text.Append(CultureInfo.InvariantCulture, $" | {100 * (pair?.Truth ?? double.NaN):0.0} % | {100 * (pair?.Measured ?? double.NaN):0.0} %");
            }

            text.Append(CultureInfo.InvariantCulture, $" | {row.SpecksTrue} | {row.SpecksFound} | {row.SpecksMatched} | {row.OutlineIou:0.000} |\n");
        }

        return text.ToString();
    }

    private static SharePair? Damage(PhotoRow row) => row.Shares.GetValueOrDefault("damage");

    private static double Error(PhotoRow row) => Damage(row)!.Measured!.Value - Damage(row)!.Truth;
}
