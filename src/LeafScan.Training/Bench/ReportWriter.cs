using System.Globalization;
using System.Text;

namespace LeafScan.Training.Bench;

/// <summary>Writes the figures as tables in Markdown.</summary>
public static class ReportWriter
{
    /// <summary>All tables of a run.</summary>
    public static string Tables(BenchDocument run)
    {
        StringBuilder text = new();
        Line(text, $"Measured with tool {run.Tool}, options {run.Options}, {(run.Networks.Count == 0 ? "no models" : "models " + string.Join(", ", run.Networks))}, {run.Photos.Count} photos. In brackets: 95 % interval by drawing photos again.\n");
        foreach (FigureGroup group in run.Groups.Where(g => !IsPart(g)))
        {
            Group(text, group);
        }

        Parts(text, run);

        Sizes(text, run);
        Humans(text, run);
        Refusals(text, run);
        return text.ToString();
    }

    /// <summary>The comparison of two runs.</summary>
    public static string Comparison(IReadOnlyList<FigureChange> changes)
    {
        StringBuilder text = new();
        string[] worse = [.. changes.Where(c => c.Verdict == "worse").Select(c => c.Metric.Words)];
        Line(text, worse.Length == 0 ? "Nothing got worse beyond chance.\n" : $"Got worse: {string.Join("; ", worse)}.\n");
        Line(text, "| figure | photos | before | now | change |\n| --- | ---: | ---: | ---: | --- |");
        foreach (FigureChange change in changes)
        {
            Line(text, $"| {change.Metric.Words} | {change.Photos} | {Number(change.Before)} | {Number(change.After)} | {change.Verdict} |");
        }

        return text.ToString();
    }

    private static void Group(StringBuilder text, FigureGroup group)
    {
        Line(text, $"### {char.ToUpperInvariant(group.Name[0])}{group.Name[1..]}: {group.Photos} photos\n");
        Figure[] plain = [.. group.Figures.Where(f => !Metric.ShareNames.Any(n => f.Metric.StartsWith(n, StringComparison.Ordinal)))];
        if (plain.Length > 0)
        {
            Line(text, "| figure | photos | value |\n| --- | ---: | --- |");
            foreach (Figure figure in plain)
            {
                Line(text, $"| {Metric.All.First(m => m.Name == figure.Metric).Words} | {figure.Photos} | {WithInterval(figure)} |");
            }

            Line(text, "");
        }

        string[] names = [.. Metric.ShareNames.Where(n => group[n + "Mae"] is not null)];
        if (names.Length == 0)
        {
            return;
        }

        Line(text, "| share | photos | CCC | r | Cb | bias | limits of agreement | mean absolute error |\n| --- | ---: | --- | ---: | ---: | ---: | --- | --- |");
        foreach (string name in names)
        {
            Line(text, $"| {name} | {group[name + "Mae"]!.Photos} | {WithInterval(group[name + "Ccc"])} | {Number(group[name + "R"]?.Value)} | {Number(group[name + "Cb"]?.Value)} | {Number(group[name + "Bias"]?.Value)} | {Number(group[name + "LimitLow"]?.Value)} to {Number(group[name + "LimitHigh"]?.Value)} | {WithInterval(group[name + "Mae"])} |");
        }

        Line(text, "");
    }

    private static bool IsPart(FigureGroup group)
        => group.Name.StartsWith("difficulty ", StringComparison.Ordinal) || group.Name.StartsWith("background ", StringComparison.Ordinal);

    private static void Parts(StringBuilder text, BenchDocument run)
    {
        if (!run.Groups.Any(IsPart))
        {
            return;
        }

        Line(text, "### By difficulty and background\n\n| part | photos | outline IoU, median | 10th percentile | speck F1 | stippled: mean absolute error | damage: CCC | damage: mean absolute error |\n| --- | ---: | ---: | ---: | --- | --- | --- | --- |");
        foreach (FigureGroup group in run.Groups.Where(IsPart))
        {
            Line(text, $"| {group.Name} | {group.Photos} | {Number(group["outlineIouMedian"]?.Value)} | {Number(group["outlineIouP10"]?.Value)} | {WithInterval(group["speckF1"])} | {WithInterval(group["stippledMae"])} | {WithInterval(group["damageCcc"])} | {WithInterval(group["damageMae"])} |");
        }

        Line(text, "");
    }

    private static void Sizes(StringBuilder text, BenchDocument run)
    {
        if (run.SpeckSizes.Count == 0)
        {
            return;
        }

        Line(text, "### Specks found, by their size in the photo\n\n| true diameter | specks | recall |\n| --- | ---: | --- |");
        foreach (SizeFigure size in run.SpeckSizes)
        {
            Line(text, $"| {size.Size} | {size.Specks} | {Number(size.Recall)} ({Number(size.Low)} to {Number(size.High)}) |");
        }

        Line(text, "");
        if (run.SpeckCovers.Count > 0)
        {
            Line(text, "### Specks found, by how much of them other specks cover\n\nDiscs that lie on one another blend into one pale field: a speck that lies wholly inside others can be seen by nobody.\n\n| share covered | specks | recall |\n| --- | ---: | --- |");
            foreach (SizeFigure cover in run.SpeckCovers)
            {
                Line(text, $"| {cover.Size} | {cover.Specks} | {Number(cover.Recall)} ({Number(cover.Low)} to {Number(cover.High)}) |");
            }

            Line(text, "");
        }
    }

    private static void Humans(StringBuilder text, BenchDocument run)
    {
        Line(text, "### Beside people who rate by eye\n\nOther diseases, leaves and ranges than ours, read in abstracts: a yardstick, not a contest.\n\n| who | what | how | CCC | Cb | r |\n| --- | --- | --- | ---: | ---: | ---: |");
        foreach (FigureGroup group in run.Groups.Where(g => g.Name.StartsWith("set ", StringComparison.Ordinal) && g["damageCcc"]?.Value is not null))
        {
            Line(text, $"| LeafScan | damage, {group.Name}, {group["damageCcc"]!.Photos} photos | measured | {Number(group["damageCcc"]!.Value)} | {Number(group["damageCb"]?.Value)} | {Number(group["damageR"]?.Value)} |");
        }

        foreach (HumanAnchor anchor in HumanAnchor.All)
        {
            Line(text, $"| {anchor.Study} | {anchor.What} | {anchor.Condition} | {anchor.Ccc} | {anchor.Cb} | {anchor.R} |");
        }

        Line(text, "");
    }

    private static void Refusals(StringBuilder text, BenchDocument run)
    {
        PhotoRow[] refused = [.. run.Photos.Where(r => !r.Measured)];
        if (refused.Length == 0)
        {
            return;
        }

        Line(text, "### Not measured\n");
        foreach (IGrouping<string, PhotoRow> reason in refused.GroupBy(r => r.Refused!))
        {
            Line(text, $"- {reason.Key} {reason.Count()} of {run.Photos.Count}: {string.Join(", ", reason.Select(r => r.Key).Take(8))}{(reason.Count() > 8 ? " ..." : "")}");
        }

        Line(text, "");
    }

    private static string WithInterval(Figure? figure)
        => figure is null ? "" : figure.Low is null ? Number(figure.Value) : $"{Number(figure.Value)} ({Number(figure.Low)} to {Number(figure.High)})";

    private static string Number(double? value)
        => value is not { } v ? "-" : Math.Abs(v) >= 10 ? v.ToString("0.0", CultureInfo.InvariantCulture) : v.ToString("0.000", CultureInfo.InvariantCulture);

    private static void Line(StringBuilder text, string line) => text.Append(line).Append('\n');
}
