using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Sampling;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Cli.Screen;

/// <summary>Advice for people.</summary>
internal static class NextScreen
{
    /// <summary>One plant, with a plan and everything to mind.</summary>
    public static void Write(TextWriter writer, PlantAdvice advice, TapPlan? taps, LeafPlan? look)
    {
        void Line(string text) => writer.WriteLine(Words.OneLine(text));

        Line($"{advice.Plant.Code} in {advice.Plant.PlaceName}{(advice.Plant.Species is { } species ? $", {species}" : string.Empty)}, {Words.Day(advice.Situation.Today)}");
        foreach (AdviceLine line in advice.Advice.Lines)
        {
            Line($"  - {line.Words}");
            Line($"    {line.Reason} [{line.Source}]");
        }

        if (taps is not null && !advice.Advice.IsRest)
        {
            Line($"Taps: {Words.Count(taps.Branches, "branch", "branches")}. {taps.Because}");
            string stops = taps.Stops.DistinctBy(stop => stop.Mites).Count() == 1
                ? $"{taps.Stops[0].Mites} mites"
                : string.Join(", ", taps.Stops.Select(stop => $"{stop.Mites} after {stop.Taps}"));
            Line($"  Or tap until all taps together make {stops}. {taps.StopsBecause}");
        }

        if (look is not null)
        {
            Write(writer, look);
        }

        foreach (AdviceLine caution in advice.Advice.Cautions)
        {
            Line($"  ! {caution.Words} {caution.Reason} [{caution.Source}]");
        }
    }

    /// <summary>Many plants, one line each.</summary>
    public static void Write(TextWriter writer, IReadOnlyList<PlantAdvice> all)
    {
        if (all.Count == 0)
        {
            writer.WriteLine("No plant is on record there. All plants: leafscan plants");
            return;
        }

        TextTable table = new("plant", "place", "look again", "what to do");
        foreach (PlantAdvice advice in all)
        {
            table.Add(advice.Plant.Code, advice.Plant.PlaceName, Words.Day(advice.Advice.RecheckOn), advice.Advice.Lines[0].Words);
        }

        table.WriteTo(writer);
        writer.WriteLine("Reasons, sources and what to mind: leafscan next PLANT. The label is the law.");
    }

    private static void Write(TextWriter writer, LeafPlan look)
    {
        writer.WriteLine("Leaf by leaf, with a lens, undersides: does it carry a mite? Stop as soon as a line is reached.");
        TextTable table = new(">leaves", ">few: at most", ">many: at least");
        foreach (StopLine line in look.Lines)
        {
            table.Add(Words.Number(line.Count), line.BelowAt is { } below ? Words.Number(below) : "-", line.AboveAt is { } above ? Words.Number(above) : "-");
        }

        table.WriteTo(writer);
        writer.WriteLine($"After {look.Plan.LeavesMost} leaves without an answer it is neither few nor many: look again at the next visit.");
        writer.WriteLine($"Wald 1947, risks of 10 % either way. Few: {ThresholdWords.NumberOf(look.Low)} [{ThresholdWords.SourceOf(look.Low)}]. Many: {ThresholdWords.NumberOf(look.High)} [{ThresholdWords.SourceOf(look.High)}].");
    }
}
