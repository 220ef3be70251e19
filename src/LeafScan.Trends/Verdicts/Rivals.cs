using LeafScan.Records;

namespace LeafScan.Trends.Verdicts;

/// <summary>Finds what else could have made the figures.</summary>
internal static class Rivals
{
    /// <summary>Kinds that explain fewer mites or less new damage without any care.</summary>
    public static bool ExplainsFewer(RivalKind kind) => kind is RivalKind.QuietSeason or RivalKind.CoolerWeather or RivalKind.LittleLeft or RivalKind.ChecksFellToo or RivalKind.Predators;

    /// <summary>Other explanations beside the care.</summary>
    public static IReadOnlyList<Rival> Beside(PlantHistory plant, IReadOnlyList<HistoryVisit> visits, CareWindow window, Evidence evidence, VerdictOptions options)
    {
        List<Rival> rivals = [];
        DateOnly last = LastDay(plant, visits, window);
        if (QuietSeason.Begins(plant.Calendar, window.FirstCare, last) is not null)
        {
            rivals.Add(new Rival(RivalKind.QuietSeason, plant.Calendar switch
            {
                MiteCalendar.Warm => "Late in summer these mites crash by themselves, and fall ends their year.",
                MiteCalendar.Cool => "These mites sit out the summer as eggs, and winter ends their year.",
                MiteCalendar.Boxwood => "Boxwood mites pause in high summer and stop in fall.",
                _ => "Which mites these are is not on record, and at this time of the year many stop by themselves.",
            }));
        }

        if (Warmth.Of(plant.Weather, window, last) is { } warmth && warmth.GrowthSince < 0.6 * warmth.GrowthBefore)
        {
            rivals.Add(new Rival(RivalKind.CoolerWeather, $"It was cooler since ({VerdictText.Number(warmth.MeanSince)} °C after {VerdictText.Number(warmth.MeanBefore)} °C), which slows mites."));
        }

        if (evidence.Leaves.DamageMost >= options.LittleLeftFrom)
        {
            rivals.Add(new Rival(RivalKind.LittleLeft, "The leaves were so damaged that mites run out of food and leave by themselves."));
        }

        if (ChecksFell(evidence))
        {
            rivals.Add(new Rival(RivalKind.ChecksFellToo, "The untreated plants got better too, so something else than the care did part of it."));
        }

        HistoryTap[] since = [.. plant.Taps.Where(tap => tap.Day > window.FirstCare && tap.Day <= window.Until)];
        (int predators, int mites) = (since.Sum(tap => tap.Predators ?? 0), since.Sum(tap => tap.LiveMites));
        if (predators > 0 && predators >= options.PredatorsThatHold * mites && !window.Kinds.Contains(CareKind.Predators))
        {
            rivals.Add(new Rival(RivalKind.Predators, $"Predators were on the tap sheets ({predators} beside {VerdictText.Count(mites, "mite", "mites")}); they may hold the mites by themselves."));
        }

        if (plant.Taps.Any(tap => tap.Day > window.FirstCare && tap.HoursSinceRinse < options.DryHours))
        {
            rivals.Add(new Rival(RivalKind.WetTaps, "Some taps were made on a plant that was still wet, which counts too few; they are left out."));
        }

        rivals.AddRange(OfLeaves(visits, evidence.Leaves, options));
        return rivals;
    }

    /// <summary>What can move an average of leaves without mites.</summary>
    public static IEnumerable<Rival> OfLeaves(IReadOnlyList<HistoryVisit> visits, SameLeaves leaves, VerdictOptions options)
    {
        if (leaves.LostCount > 0)
        {
            yield return new Rival(RivalKind.LeafDrop, $"{VerdictText.Count(leaves.LostCount, "tagged leaf is", "tagged leaves are")} missing from the last visit; when damaged leaves drop, the average falls without a cure.");
        }

        if (visits.Count < 2)
        {
            yield break;
        }

        (double first, double last) = (visits[0].Leaves.Average(leaf => leaf.Damage), visits[^1].Leaves.Average(leaf => leaf.Damage));
        bool isLess = last < first - options.RepeatSpread;
        if (isLess && visits[^1].Leaves.Any(leaf => leaf.Age == LeafAge.NewGrowth))
        {
            yield return new Rival(RivalKind.NewLeaves, "New leaves are among those photographed; they thin out the average.");
        }
        else if (isLess && leaves.LostCount == 0 && visits[^1].Leaves.Any(leaf => leaf.Tag is null))
        {
            yield return new Rival(RivalKind.NewLeaves, $"The average fell from {VerdictText.Points(first)} to {VerdictText.Points(last)} %, but damage does not heal: damaged leaves dropped, new ones came, or others were photographed.");
        }

        if (leaves.Since is { } since && since.Upper(0.05) < 0)
        {
            yield return new Rival(RivalKind.OtherPhotos, "The same leaves read less than before, which cannot be: the light, the camera or the person was another.");
        }
    }

    /// <summary>The last day within the window on which something was counted.</summary>
    public static DateOnly LastDay(PlantHistory plant, IReadOnlyList<HistoryVisit> visits, CareWindow window)
        => visits.Select(visit => visit.Day).Concat(plant.Taps.Select(tap => tap.Day)).Where(day => day <= window.Until).Append(window.FirstCare).Max();

    private static bool ChecksFell(Evidence evidence)
    {
        if (evidence.CheckTaps is { } taps)
        {
            return taps.Since < 0.7 * taps.Before;
        }

        return evidence.CheckLeaves.Count > 0
            && Evidence.MeanOf(evidence.CheckLeaves.Select(check => check.Since!.Value)).Value < 0.7 * Evidence.MeanOf(evidence.CheckLeaves.Select(check => check.Before!.Value)).Value;
    }
}
