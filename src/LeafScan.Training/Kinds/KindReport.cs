using System.Globalization;
using System.Text;
using LeafScan.Leaves.Kinds;

namespace LeafScan.Training.Kinds;

/// <summary>What a photo-kind model made of pictures of known kind.</summary>
internal sealed class KindReport
{
    private readonly List<(KindExample Example, KindJudgement Judged)> _rows = [];

    /// <summary>Judges pictures; each is disposed.</summary>
    public static KindReport Of(KindModel model, IEnumerable<KindExample> examples)
    {
        KindReport report = new();
        foreach (KindExample example in examples)
        {
            using (example)
            {
                report._rows.Add((example, model.Judge(example.Pixels)));
            }
        }

        return report;
    }

    /// <summary>Confusion table in Markdown: rows are the truth; a kind is given only when it is sure.</summary>
    /// <param name="sureFrom">Chance from which a kind counts as sure.</param>
    public string Table(double sureFrom)
    {
        StringBuilder text = new();
        text.AppendLine("| truth \\ said | " + string.Join(" | ", PhotoKinds.All.Select(k => k.Name())) + " | unsure |");
        text.AppendLine("| --- |" + string.Concat(Enumerable.Repeat(" ---: |", PhotoKinds.All.Count + 1)));
        foreach (IGrouping<(PhotoKind, string), (KindExample Example, KindJudgement Judged)> row in _rows
            .GroupBy(r => (r.Example.Kind, Source(r.Example))).OrderBy(g => g.Key))
        {
            text.Append(CultureInfo.InvariantCulture, $"| {row.Key.Item1.Name()} ({row.Key.Item2}) |");
            foreach (PhotoKind said in PhotoKinds.All)
            {
                text.Append(CultureInfo.InvariantCulture, $" {row.Count(r => r.Judged.Kind == said && r.Judged.Chance >= sureFrom)} |");
            }

            text.AppendLine(CultureInfo.InvariantCulture, $" {row.Count(r => r.Judged.Chance < sureFrom)} |");
        }

        return text.ToString();
    }

    /// <summary>One line for each picture that was not surely called by its kind, the worst first.</summary>
    public IEnumerable<string> Doubts(double sureFrom) => _rows
        .Where(r => r.Judged.Kind != r.Example.Kind || r.Judged.Chance < sureFrom)
        .OrderBy(r => r.Judged.Chances[(int)r.Example.Kind - 1])
        .Select(r => string.Create(
            CultureInfo.InvariantCulture,
            $"{r.Example.Source}/{r.Example.Name}: {r.Example.Kind.Name()} {r.Judged.Chances[(int)r.Example.Kind - 1]:0.000}, said {r.Judged.Kind.Name()} {r.Judged.Chance:0.000}"));

    private static string Source(KindExample example) => example.Source;
}
