using LeafScan.Cli.Screen;
using LeafScan.Records;
using LeafScan.Trends.Sampling;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Cli.Commands;

/// <summary>A day's taps of a plant beside the threshold that holds for it.</summary>
internal static class TapBeside
{
    /// <summary>The threshold, null for none, and a sentence.</summary>
    public static (Threshold? Threshold, string Words) Say(RecordStore store, Plant plant, DateOnly day)
    {
        string? client = store.FindPlace(plant.PlaceName)?.ClientName;
        if (RecordThresholds.Load(store).For(ThresholdMeasure.MitesPerTap, plant.Species, client) is not { } threshold)
        {
            return (null, "No threshold per tap is published for this plant; set your own with leafscan thresholds set mites-per-tap. What to do: leafscan next " + plant.Code);
        }

        TapOnRecord[] taps = [.. store.TapsOfPlant(plant.Id).Where(tap => tap.Tap.Day == day)];
        CountMean mites = CountMean.Of([.. taps.Select(tap => tap.LiveMites)], [.. taps.Select(tap => tap.BranchCount)], 0.9);
        string side = mites.Interval.High < threshold.Value ? "surely below" : mites.Interval.Low > threshold.Value ? "surely above" : "too near to tell from";
        string single = mites.IsSingle ? " One count cannot show how unevenly mites sit: tap two more branches, each counted by itself." : string.Empty;
        return (threshold, FormattableString.Invariant(
            $"{Words.Count(mites.UnitCount, "tapped branch", "tapped branches")} that day: {mites.Mean:0.0} a tap ({mites.Interval.Low:0.0} to {mites.Interval.High:0.0}), {side} {threshold.Value:0.##} [{ThresholdWords.SourceOf(threshold)}].{single}"));
    }
}
