using static LeafScan.Trends.Verdicts.VerdictText;

namespace LeafScan.Trends.Verdicts;

/// <summary>The next useful step.</summary>
internal static class NextStep
{
    public static string For(VerdictWord word, PlantHistory plant, CareWindow window, Evidence evidence, Record record, VerdictOptions options)
    {
        switch (word)
        {
            case VerdictWord.Working:
                return evidence.Taps is null
                    ? "Go on as before, and tap: when two taps a week apart find hardly a mite, stop and only look."
                    : "Go on until two taps a week apart find hardly a mite, then stop and only look.";
            case VerdictWord.NotWorking:
                const string How = "make sure that the undersides are hit and come back sooner; if that was done, take the next gentle step, by its label.";
                return evidence.Taps is { Since: >= 1 } ? "The mites are there: " + How : "Tap to see whether mites are there now. If they are: " + How;
            case VerdictWord.TooEarly:
                DateOnly next = window.FirstCare.AddDays(options.DaysLeast);
                if (record.LastDaySince is { } last && last.AddDays(options.DaysLeast) > next)
                {
                    next = last.AddDays(options.DaysLeast);
                }

                return $"Look again about {Day(next)}: the same leaves, and a tap.";
            default:
                return Missing(plant, evidence);
        }
    }

    private static string Missing(PlantHistory plant, Evidence evidence)
    {
        List<string> steps = [];
        if (plant.Taps.Count == 0)
        {
            steps.Add("tap now and again in a week");
        }

        if (evidence.Leaves.Since is null)
        {
            steps.Add("tag ten leaves and photograph the same ones each week");
        }

        if (plant.CheckPlants.Count == 0)
        {
            steps.Add("leave one plant of the kind untreated beside it and look at it the same way");
        }

        if (steps.Count == 0)
        {
            steps.Add("go on with the same leaves and taps, more of both: twenty leaves, three taps");
        }

        return "To know: " + string.Join("; ", steps) + ".";
    }
}
