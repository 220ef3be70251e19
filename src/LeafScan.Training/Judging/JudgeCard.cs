using System.Globalization;
using System.Text;
using LeafScan.Leaves.Specks.Judge;

namespace LeafScan.Training.Judging;

/// <summary>What the model's card says.</summary>
/// <param name="Text">The card, Markdown.</param>
/// <param name="Tables">Its figures alone, Markdown.</param>
internal sealed record JudgeCard(string Text, string Tables)
{
    /// <summary>Measures a judge on the samples kept apart and writes the card.</summary>
    public static JudgeCard Of(IReadOnlyList<CandidateSample> all, IReadOnlyList<CandidateSample> apart, SpeckJudge judge, double chance, int seed)
    {
        StringBuilder tables = new();
        tables.AppendLine("| kept apart | photos | candidates | true specks | AUC | | precision | recall | F1 | false specks on a leaf without any |");
        tables.AppendLine("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (IGrouping<string, CandidateSample> set in apart.GroupBy(s => s.Set).Append(apart.GroupBy(_ => "all").Single()))
        {
            JudgeFigures f = JudgeFigures.Of(judge, [.. set], chance);
            tables.AppendLine(CultureInfo.InvariantCulture, $"| {set.Key} | {f.Photos} | {f.Candidates} | {f.Truth} | {f.Auc:F3} | before | {Row(f.Before)} |");
            tables.AppendLine(CultureInfo.InvariantCulture, $"| | | | | | with the judge | {Row(f.After)} |");
        }

        StringBuilder text = new();
        text.AppendLine("# speck-judge.zip").AppendLine();
        text.AppendLine("For each spot that may be a speck, the chance that it is a feeding mark and no glint, vein, dust or mark of the leaf's own.").AppendLine();
        text.AppendLine("| | |").AppendLine("| --- | --- |");
        text.AppendLine(CultureInfo.InvariantCulture, $"| Input | {SpeckCandidate.FeatureCount} values of a candidate: `SpeckFeature` in `src/LeafScan.Leaves/Specks/Judge` lists them in order |");
        text.AppendLine(CultureInfo.InvariantCulture, $"| Output | chance, 0..1; a speck from {chance} |");
        text.AppendLine("| Method | boosted trees (ML.NET FastTree), each leaf weighted by the root of its number of candidates |");
        foreach (IGrouping<string, CandidateSample> set in all.GroupBy(s => s.Set))
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"| Data: {set.Key} | {set.Count()} photos, {set.Sum(s => s.Marks.Count)} candidates, {set.Sum(s => s.Labels.Count(l => l))} of them true specks |");
        }

        text.AppendLine(CultureInfo.InvariantCulture, $"| Split | by leaf: {all.Select(s => s.Group).Distinct().Count()} leaves, {apart.Select(s => s.Group).Distinct().Count()} of them kept apart for the figures; the file itself was then trained on all |");
        text.AppendLine(CultureInfo.InvariantCulture, $"| Seed | {seed} |").AppendLine();
        text.Append(tables).AppendLine();
        text.AppendLine("\"Before\" is what counts without the judge: a centre score of 0.35, or colour alone beyond doubt. The network itself was trained on damage painted onto some of these leaves, so both rows flatter it on painted scenes; only their difference says something of the judge.");
        return new JudgeCard(text.ToString(), tables.ToString().TrimEnd());
    }

    /// <summary>Figures of samples that were only scored, at every chance from 0.25 to 0.8 and with all candidates taken.</summary>
    public static string AtSeveralChances(IReadOnlyList<CandidateSample> scored, SpeckJudge judge)
    {
        StringBuilder table = new();
        table.AppendLine("| speck from a chance of | photos | AUC | precision | recall | F1 | false specks on a leaf without any |");
        table.AppendLine("| --- | --- | --- | --- | --- | --- | --- |");
        for (int i = 0; i <= 12; i++)
        {
            double chance = i == 0 ? 0 : 0.2 + (0.05 * i);
            JudgeFigures f = JudgeFigures.Of(judge, scored, chance);
            if (i == 0)
            {
                table.AppendLine(CultureInfo.InvariantCulture, $"| without the judge | {f.Photos} | | {Row(f.Before)} |");
            }

            table.AppendLine(CultureInfo.InvariantCulture, $"| {chance:F2} | {f.Photos} | {f.Auc:F3} | {Row(f.After)} |");
        }

        return table.ToString().TrimEnd();
    }

    private static string Row(SpeckScore s)
        => string.Create(CultureInfo.InvariantCulture, $"{s.Precision:F3} | {s.Recall:F3} | {s.F1:F3} | {s.FalseOnClean:F1}");
}
