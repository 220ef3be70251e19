using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Verdicts;

/// <summary>Writes the evidence down as figures.</summary>
internal static class FigureMaker
{
    public static VerdictFigures Of(PlantHistory plant, IReadOnlyList<HistoryVisit> visits, CareWindow window, Evidence evidence, VerdictOptions options)
    {
        bool hasChecks = evidence.CheckLeaves.Count > 0;
        CareEfficacy efficacy = CareEfficacy.Of(plant, window, evidence, options);
        Interval? rest = evidence.RestByTaps?.Interval();
        return new VerdictFigures
        {
            SameLeafCount = evidence.Leaves.Pairs.Count,
            NewDamageBefore = evidence.Leaves.Before?.Value,
            NewDamageBeforeInterval = evidence.Leaves.Before?.Interval(),
            NewDamageSince = evidence.Leaves.Since?.Value,
            NewDamageSinceInterval = evidence.Leaves.Since?.Interval(),
            NewGrowthBefore = NewGrowth(visits.Where(visit => visit.Day <= window.FirstCare)),
            NewGrowthSince = NewGrowth(visits.Where(visit => visit.Day > window.FirstCare && visit.Day <= window.Until)),
            MitesBefore = evidence.Taps?.Before,
            MitesSince = evidence.Taps?.Since,
            CheckPlantCount = plant.CheckPlants.Count,
            CheckMitesBefore = evidence.CheckTaps?.Before,
            CheckMitesSince = evidence.CheckTaps?.Since,
            Efficacy = efficacy.HendersonTilton,
            EfficacyInterval = rest is { } log ? new Interval(1 - Math.Exp(log.High), 1 - Math.Exp(log.Low), log.Level) : null,
            EfficacyBySunShepard = efficacy.SunShepard,
            EfficacyByAbbott = efficacy.Abbott,
            EfficacyBecause = efficacy.Because,
            CheckNewDamageBefore = hasChecks ? evidence.CheckLeaves.Average(check => check.Before!.Value.Value) : null,
            CheckNewDamageSince = hasChecks ? evidence.CheckLeaves.Average(check => check.Since!.Value.Value) : null,
        };
    }

    private static double? NewGrowth(IEnumerable<HistoryVisit> visits)
    {
        HistoryLeaf[]? leaves = visits.Select(visit => visit.Leaves.Where(leaf => leaf.Age == LeafAge.NewGrowth).ToArray()).LastOrDefault(leaves => leaves.Length > 0);
        return leaves?.Average(leaf => leaf.Damage);
    }
}
