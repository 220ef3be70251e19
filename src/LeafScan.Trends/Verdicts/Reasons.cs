using static LeafScan.Trends.Verdicts.VerdictText;

namespace LeafScan.Trends.Verdicts;

/// <summary>The reasons of a verdict on care, in sentences.</summary>
internal static class Reasons
{
    public static IReadOnlyList<string> For(
        VerdictWord word, PlantHistory plant, IReadOnlyList<HistoryVisit> visits, CareWindow window, Evidence evidence, IReadOnlyList<Rival> rivals, Record record, VerdictOptions options)
    {
        List<string> because = [];
        string care = Of(window.Kinds);
        if (record.LastDaySince is null)
        {
            because.Add($"There was no visit since {care} ({Day(window.FirstCare)}).");
            return because;
        }

        if (record.DaysSince < options.DaysLeast)
        {
            because.Add($"The last visit was {Count(record.DaysSince, "day", "days")} after the first of {care}; eggs survive and damage shows late, so nothing counts before {options.DaysLeast} days.");
        }

        AddLeaves(because, care, plant, visits, window, evidence, options);
        AddTaps(because, care, evidence, options);
        if (evidence.Taps is null && plant.Taps.Count == 0)
        {
            because.Add("No taps are on record: photos show damage, not whether mites are still there.");
        }

        AddGrowth(because, visits, window);
        AddWhyNoWord(because, word, plant, evidence, rivals, record, options);
        if (evidence.SlowsOnly)
        {
            because.Add(word == VerdictWord.NotWorking
                ? $"So {care} slows the mites but does not hold them."
                : $"It did better than the untreated plants, yet there is more than before: {care} may slow the mites without holding them.");
        }

        // Where the word stands, what could explain fewer mites has been ruled out or does not matter; that untreated plants fell too is still worth knowing.
        because.AddRange(rivals.Where(rival => IsTold(rival.Kind, word)).Select(rival => rival.Sentence));
        return because;
    }

    private static bool IsTold(RivalKind kind, VerdictWord word) => word switch
    {
        VerdictWord.Working => kind == RivalKind.ChecksFellToo || !Rivals.ExplainsFewer(kind),
        VerdictWord.NotWorking => !Rivals.ExplainsFewer(kind),
        _ => true,
    };

    private static void AddLeaves(List<string> because, string care, PlantHistory plant, IReadOnlyList<HistoryVisit> visits, CareWindow window, Evidence evidence, VerdictOptions options)
    {
        SameLeaves leaves = evidence.Leaves;
        if (leaves.Before is { } before && leaves.Since is { } since)
        {
            because.Add($"Before {care} the same leaves gained {Points(before.Value)} points of damage a week ({Between(before.Interval())}); since then {Points(since.Value)} a week ({Between(since.Interval())}), {Count(leaves.Pairs.Count, "leaf", "leaves")}.");
            if (evidence.CheckLeaves.Count > 0)
            {
                because.Add($"Those of {Count(evidence.CheckLeaves.Count, "untreated plant", "untreated plants")} gained {Points(evidence.CheckLeaves.Average(c => c.Before!.Value.Value))} a week before and {Points(evidence.CheckLeaves.Average(c => c.Since!.Value.Value))} since.");
            }

            return;
        }

        if (leaves.Since is { } only)
        {
            because.Add($"Since {care} the same leaves gained {Points(only.Value)} points of damage a week ({Between(only.Interval())}); how fast it came before was not recorded on the same leaves.");
            return;
        }

        HistoryVisit? last = visits.LastOrDefault(visit => visit.Day <= window.FirstCare);
        HistoryVisit? now = visits.LastOrDefault(visit => visit.Day > window.FirstCare);
        if (last is not null && now is not null)
        {
            because.Add($"The leaves of {Day(last.Day)} have {Points(last.Leaves.Average(l => l.Damage))} % damage, those of {Day(now.Day)} {Points(now.Leaves.Average(l => l.Damage))} %.");
            foreach (PlantHistory check in plant.CheckPlants)
            {
                HistoryVisit[] days = Visits.ByDay(check.Visits);
                HistoryVisit? first = days.LastOrDefault(visit => visit.Day <= window.FirstCare);
                if (first is not null && days[^1].Day > window.FirstCare)
                {
                    because.Add($"On {check.Name}, left untreated, it went from {Points(first.Leaves.Average(l => l.Damage))} to {Points(days[^1].Leaves.Average(l => l.Damage))} %.");
                }
            }
        }

        if (visits.Count > 0 && !visits.Any(visit => visit.Leaves.Count(leaf => leaf.Tag is not null) >= options.SameLeavesLeast))
        {
            because.Add("The leaves are not marked as the same ones, and an average of other leaves can rise or fall without the mites.");
        }
    }

    private static void AddTaps(List<string> because, string care, Evidence evidence, VerdictOptions options)
    {
        if (evidence.Taps is not { } taps)
        {
            return;
        }

        because.Add($"Taps found {Number(taps.Before)} live mites a tap before {care} and {Number(taps.Since)} since.");
        if (evidence.CheckTaps is { } checks)
        {
            string efficacy = CareEfficacy.HendersonAndTilton(taps, checks).Share is { } share && share > 0
                ? $" Against them {care} took about {Math.Round(100 * share):0} of 100 mites."
                : string.Empty;
            because.Add($"On the untreated plants it was {Number(checks.Before)} before and {Number(checks.Since)} since.{efficacy}");
        }

        if (taps.CountedBefore < options.MitesLeast && taps.Since <= 2 * taps.Before)
        {
            because.Add("So few mites were found before that taps cannot show a change.");
        }
    }

    private static void AddGrowth(List<string> because, IReadOnlyList<HistoryVisit> visits, CareWindow window)
    {
        HistoryLeaf[] fresh = [.. visits.LastOrDefault(visit => visit.Day > window.FirstCare && visit.Day <= window.Until)?.Leaves.Where(leaf => leaf.Age == LeafAge.NewGrowth) ?? []];
        if (fresh.Length > 0)
        {
            int clean = fresh.Count(leaf => leaf.Damage < 0.02);
            because.Add(clean == fresh.Length
                ? $"New growth is clean ({Count(fresh.Length, "leaf", "leaves")})."
                : $"{clean} of {Count(fresh.Length, "leaf", "leaves")} of new growth {(clean == 1 ? "is" : "are")} clean.");
        }
    }

    private static void AddWhyNoWord(
        List<string> because, VerdictWord word, PlantHistory plant, Evidence evidence, IReadOnlyList<Rival> rivals, Record record, VerdictOptions options)
    {
        if (word is not (VerdictWord.CannotTell or VerdictWord.TooEarly) || record.DaysSince < options.DaysLeast)
        {
            return;
        }

        if (record.BeforeCount == 0)
        {
            because.Add("Nothing was recorded before the care, so there is nothing to compare with.");
        }
        else if (record.BeforeCount == 1 && evidence.Taps is null)
        {
            because.Add("Only one visit was before the care, so nothing shows how fast damage came until then.");
        }

        if (record.SinceCount < 2)
        {
            because.Add(record.TooLateCount > 0
                ? $"{Count(record.TooLateCount, "visit was", "visits were")} more than {options.DaysJudged} days after the last of the care; by then new mites may have come."
                : "Only one visit counts since the care.");
        }

        bool isAlone = evidence.CheckTaps is null && evidence.CheckLeaves.Count == 0;
        if (isAlone && record.SinceCount >= 2 && record.VisitCount < options.VisitsLeastAlone)
        {
            because.Add("Three visits never make a trend.");
        }

        if (isAlone && rivals.Any(rival => Rivals.ExplainsFewer(rival.Kind)) && evidence.LessAlone(options))
        {
            because.Add("It got better, but without an untreated plant beside it this may not be the care's doing.");
        }

        if (evidence.LeavesGainMore && evidence.HardlyAnyMites)
        {
            because.Add("The leaves gained damage although taps find hardly a mite: old feeding may still show, or the photos differ.");
        }

        if (evidence.Leaves.Before is { } before && before.Value < options.RateThatMatters && (evidence.Taps is null || evidence.Taps.CountedBefore < options.MitesLeast))
        {
            because.Add("Hardly any damage came before the care, so there was little to stop.");
        }
        else if (record.SinceCount >= 2 && !evidence.SlowsOnly && evidence.Leaves.Pairs.Count >= options.SameLeavesLeast && !evidence.LeavesGainLess && !evidence.LeavesGainMore)
        {
            because.Add("The difference is smaller than what leaves and photos vary by themselves.");
        }
    }
}
