using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Records;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Cli.Commands;

/// <summary>next: what to do next with a plant, or with all of them.</summary>
internal static class NextCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string?> code = new("PLANT") { Description = "Code of the plant. Without it, all plants (of --place), those with something to do first.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "Day for which advice is wanted. Default: today.");
        Option<bool> leaves = new("--by-leaves") { Description = "Plans a leaf-by-leaf look with a lens that stops early, instead of taps." };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "next", "Says what to do next, when to look again, how many branches to tap, and what to mind.", "leafscan next EU-1", "leafscan next EU-1 --by-leaves", "leafscan next --place \"Hill nursery\" --json")
        {
            code, place, date, leaves, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            ThresholdTable thresholds = RecordThresholds.Load(store);
            DateOnly today = parsed.GetValue(date) ?? DateOnly.FromDateTime(world.Time.GetLocalNow().DateTime);
            PlantAdviser adviser = new(store, thresholds);
            string? target = JsonOut.Target(parsed, json);
            if (parsed.GetValue(code) is not { } one)
            {
                IReadOnlyList<PlantAdvice> all = adviser.Advise(store.Plants(parsed.GetValue(place)), today);
                return Give(world, target, () => NextDocument.Of(all, today), () => NextScreen.Write(world.Out, all));
            }

            PlantAdvice advice = adviser.Advise([PlantChoice.One(store, one, parsed.GetValue(place))], today)[0];
            LeafPlan? look = parsed.GetValue(leaves) ? LeafPlanOf(thresholds, advice) : null;
            TapPlan? taps = look is null ? TapPlan.Of(advice.Situation.Tap, adviser.SpreadAt(advice.Plant.PlaceId)) : null;
            return Give(world, target, () => NextDocument.Of(advice, taps, look), () => NextScreen.Write(world.Out, advice, taps, look));
        });
        return command;
    }

    private static LeafPlan LeafPlanOf(ThresholdTable thresholds, PlantAdvice advice)
        => LeafPlan.Of(thresholds, advice.Plant.Species, advice.Client)
        ?? throw new CommandException(ExitCode.WrongUse, "leaves-with-mites-low does not lie below leaves-with-mites-high. Set one of them anew: leafscan thresholds");

    private static int Give(Surroundings world, string? target, Func<object> document, Action screen)
    {
        if (target is not null)
        {
            JsonOut.Write(world, target, document());
        }

        if (target != JsonOut.StandardOutput)
        {
            screen();
        }

        return ExitCode.Done;
    }
}
