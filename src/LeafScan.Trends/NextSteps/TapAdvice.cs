using LeafScan.Trends.Sampling;

namespace LeafScan.Trends.NextSteps;

/// <summary>What a fresh tap asks for.</summary>
internal static class TapAdvice
{
    private const double DryHours = 24;

    // With no threshold to go by: this many times the last count is surely more than taps of one plant differ by. Our own choice.
    private const double Grown = 2;

    /// <summary>Adds the advice; true for a rest.</summary>
    public static bool Give(PlantSituation plant, List<AdviceLine> lines)
    {
        TapSeen tap = plant.Tap!;
        CountMean mites = tap.Mites;
        string seen = Words.Text($"{Words.Count((int)mites.Total, "mite", "mites")} on {Words.Count(mites.UnitCount, "tapped branch", "tapped branches")}: {mites.Mean:0.0} a tap, with 90 % trust {mites.Interval.Low:0.0} to {mites.Interval.High:0.0}.");
        if (tap.HoursSinceWet < DryHours)
        {
            lines.Add(new("Tap again once the plant has been dry for a day.", "Water just before a tap makes the count low.", AdviceLine.Common));
            return false;
        }

        if (plant.PredatorsPerMite is { } rule && tap.Predators is { } predators && mites.Total > 0 && predators >= rule.Value * mites.Total)
        {
            lines.Add(new("Leave it to the predators and look again.", Words.Text($"{seen} {Words.Count(predators, "predator", "predators")}: at least {rule.Value:0.###} to a mite."), Words.Of(rule)));
            return false;
        }

        return plant.MitesPerTap is { } threshold ? Beside(threshold, plant, mites, seen, lines) : WithoutThreshold(plant, mites, seen, lines);
    }

    private static bool Beside(Thresholds.Threshold threshold, PlantSituation plant, CountMean mites, string seen, List<AdviceLine> lines)
    {
        if (mites.Interval.High < threshold.Value)
        {
            bool isRest = mites.Total == 0 && plant.IsDamageRising != true;
            lines.Add(new(isRest ? "Rest: nothing to do now." : "Nothing to do but look again.", Words.Text($"{seen} Surely below {threshold.Value:0.#} a tap."), Words.Of(threshold)));
            return isRest;
        }

        if (mites.Interval.Low <= threshold.Value)
        {
            int units = Math.Max(TapPlan.BranchesFor(mites), mites.UnitCount + 2);
            lines.Add(new(
                $"Tap more branches: {units} in all.",
                Words.Text($"{seen} That may lie on either side of {threshold.Value:0.#} a tap; so many give a standard error of a quarter of the mean."),
                Words.Of(threshold)));
        }

        lines.Add(CareLadder.Next(plant, seen));
        return false;
    }

    // No number is published for the plant and none is set: mites that are there count by whether they grow and do harm.
    private static bool WithoutThreshold(PlantSituation plant, CountMean mites, string seen, List<AdviceLine> lines)
    {
        const string None = "No threshold per tap is published for this plant; with one of your own (leafscan thresholds set mites-per-tap) taps are judged by it.";
        if (mites.Total == 0)
        {
            bool isRest = plant.IsDamageRising != true;
            lines.Add(new(isRest ? "Rest: nothing to do now." : "Nothing to do but look again.", Words.Text($"{seen} None found leaves room for up to {mites.Interval.High:0.0} a tap."), "Garwood 1936 (exact Poisson interval)"));
            return isRest;
        }

        bool isGrowing = plant.Tap!.MeanBefore is { } before && mites.Interval.Low > before && mites.Mean >= Grown * before;
        if (plant.IsDamageRising == true || plant.IsNewGrowthClean == false || isGrowing)
        {
            string why = plant.IsDamageRising == true ? "Damage rises." : plant.IsNewGrowthClean == false ? "New growth is marked." : Words.Text($"They were {plant.Tap!.MeanBefore:0.0} a tap before.");
            lines.Add(CareLadder.Next(plant, $"{seen} {why} {None}"));
            return false;
        }

        lines.Add(new("Tap again before you treat: are they growing?", $"{seen} {None}", "none found for burning bush, boxwood, rose and other broadleaf ornamentals; " + AdviceLine.Own));
        return false;
    }
}
