using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Records;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Cli.Commands;

/// <summary>verdict: does the care of a plant work?</summary>
internal static class VerdictCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string?> code = new("PLANT") { Description = "Code of the plant. Without it, all plants (of --place).", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string> kind = KindOption.OnRecord();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "verdict", "Says whether the care of a plant works, why, and what to do to know more.", "leafscan verdict EU-1", "leafscan verdict EU-1 --json", "leafscan verdict --place \"Hill nursery\"")
        {
            code, place, kind, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            string? one = parsed.GetValue(code);
            IReadOnlyList<Plant> plants = one is null
                ? [.. store.PlantOverviews(parsed.GetValue(place)).Select(overview => overview.Plant)]
                : [PlantChoice.One(store, one, parsed.GetValue(place))];
            string? asked = parsed.GetValue(kind);
            if (asked is not null && KindsShown.Of(store.DamageOfPlants(plants.Select(plant => plant.Id), asked)).Nothing(asked) is { } nothing)
            {
                world.Err.WriteLine(nothing);
            }

            PlantJudge judge = new(store, asked);
            List<(Plant Plant, Verdict Verdict)> judged = [.. plants.Zip(judge.Judge(plants))];
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, one is null ? VerdictDocument.Of(judged) : VerdictDocument.Of(judged[0].Plant, judged[0].Verdict));
            }

            if (target != JsonOut.StandardOutput)
            {
                Write(world.Out, judged);
            }

            return ExitCode.Done;
        });
        return command;
    }

    private const int ManyPlants = 20;

    private static string Taken(VerdictFigures figures)
    {
        string[] shares =
        [
            .. new[] { ("Henderson-Tilton", figures.Efficacy), ("Sun-Shepard", figures.EfficacyBySunShepard), ("Abbott", figures.EfficacyByAbbott) }
                .Where(formula => formula.Item2 is not null).Select(formula => $"{formula.Item1} {Words.Percent(formula.Item2!.Value)} %"),
        ];
        return shares.Length == 0 ? string.Empty : string.Join(", ", shares) + ". ";
    }

    private static void Write(TextWriter writer, List<(Plant Plant, Verdict Verdict)> judged)
    {
        if (judged.Count == 0)
        {
            writer.WriteLine("No plant is on record there. All plants: leafscan plants");
        }

        foreach ((Plant plant, Verdict verdict) in judged)
        {
            writer.WriteLine(Words.OneLine($"{plant.Code} in {plant.PlaceName}: {VerdictNames.OnScreen(verdict.Word)}"));
            foreach (string because in verdict.Because)
            {
                writer.WriteLine(Words.OneLine("  - " + because));
            }

            if (verdict.Figures is { CheckPlantCount: > 0, EfficacyBecause: { } which } figures)
            {
                writer.WriteLine(Words.OneLine($"  Mites taken: {Taken(figures)}{which}"));
            }

            if (verdict.Trend is { } trend)
            {
                writer.WriteLine(Words.OneLine("  Direction: " + trend.Words));
            }

            writer.WriteLine(Words.OneLine("  Next: " + verdict.Next));
        }

        if (judged.Count >= ManyPlants)
        {
            writer.WriteLine("Of so many plants a few in a hundred get a wrong word by chance alone; look twice at one that surprises.");
        }
    }
}
