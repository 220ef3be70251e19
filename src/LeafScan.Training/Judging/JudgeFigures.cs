using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Training.Bench;

namespace LeafScan.Training.Judging;

/// <summary>How well candidates are told apart on samples that were not trained on.</summary>
/// <param name="Photos">Number of photos.</param>
/// <param name="Candidates">Number of candidates.</param>
/// <param name="Truth">Number of true specks.</param>
/// <param name="Auc">Chance that a true candidate ranks above a false one.</param>
/// <param name="Before">Precision, recall, F1 and false specks on photos without any, without the judge.</param>
/// <param name="After">The same with the judge.</param>
internal sealed record JudgeFigures(int Photos, int Candidates, int Truth, double Auc, SpeckScore Before, SpeckScore After)
{
    /// <summary>Judges all samples.</summary>
    public static JudgeFigures Of(SpeckJudge judge, IReadOnlyList<CandidateSample> samples, double leastChance)
    {
        List<float[]> chances = [.. samples.Select(s => judge.Chances(s.Features))];
        List<bool[]> before = [.. samples.Select(s => s.Before)];
        List<bool[]> after = chances.ConvertAll(all => Array.ConvertAll(all, c => c >= leastChance));
        return new JudgeFigures(
            samples.Count,
            samples.Sum(s => s.Marks.Count),
            samples.Sum(s => s.Truth.Count),
            AucOf(samples.SelectMany(s => s.Labels), chances.SelectMany(c => c)),
            SpeckScore.Of(samples, before),
            SpeckScore.Of(samples, after));
    }

    // Rank sum of Mann and Whitney (1947), ties sharing their mean rank.
    internal static double AucOf(IEnumerable<bool> labels, IEnumerable<float> chances)
    {
        (bool Label, float Chance)[] all = [.. labels.Zip(chances).OrderBy(p => p.Second)];
        double sum = 0, good = 0;
        for (int i = 0; i < all.Length;)
        {
            int end = i;
            while (end < all.Length && all[end].Chance == all[i].Chance)
            {
                end++;
            }

            double rank = (i + end + 1) / 2.0;
            int here = all.AsSpan(i, end - i).ToArray().Count(p => p.Label);
            sum += rank * here;
            good += here;
            i = end;
        }

        double bad = all.Length - good;
        return good == 0 || bad == 0 ? 0 : (sum - (good * (good + 1) / 2)) / (good * bad);
    }
}

/// <summary>Specks of all samples together against the truth.</summary>
/// <param name="Precision">Share of the found that are true.</param>
/// <param name="Recall">Share of the true that were found.</param>
/// <param name="F1">Harmonic mean of both.</param>
/// <param name="FalseOnClean">Mean number of specks found on photos that have none.</param>
internal sealed record SpeckScore(double Precision, double Recall, double F1, double FalseOnClean)
{
    /// <summary>Pairs the accepted candidates of each sample with its truth.</summary>
    public static SpeckScore Of(IReadOnlyList<CandidateSample> samples, IReadOnlyList<bool[]> accepted)
    {
        double found = 0, truth = 0, paired = 0, clean = 0, falseOnes = 0;
        for (int n = 0; n < samples.Count; n++)
        {
            CandidateSample s = samples[n];
            List<SpeckMark> marks = [.. s.Marks.Where((_, i) => accepted[n][i])];
            found += marks.Count;
            truth += s.Truth.Count;
            paired += SpeckMatcher.Match(s.Truth, marks).Count(h => h);
            if (s.Truth.Count == 0)
            {
                clean++;
                falseOnes += marks.Count;
            }
        }

        return new SpeckScore(
            found == 0 ? 0 : paired / found, truth == 0 ? 0 : paired / truth, found + truth == 0 ? 1 : 2 * paired / (found + truth), clean == 0 ? 0 : falseOnes / clean);
    }
}
