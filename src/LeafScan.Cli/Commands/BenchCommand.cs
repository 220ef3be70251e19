using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Bench;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Leaves.Learned;

namespace LeafScan.Cli.Commands;

/// <summary>bench: how fast a photo is read, beside what any reading must cost.</summary>
internal static class BenchCommand
{
    private const int UsualRounds = 5, UsualColdRuns = 3;

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string?> photo = new("--photo") { Description = "A photo of yours. Default: a demo leaf enlarged to twelve megapixels.", HelpName = "FILE" };
        Option<int> rounds = new("--rounds") { Description = $"Rounds of which the middle one counts, 1 to 99; default {UsualRounds}.", HelpName = "N", DefaultValueFactory = _ => UsualRounds };
        Between(rounds, 1);
        Option<int> cold = new("--cold") { Description = $"How often the command measure is started as a program of its own, 0 to 99; default {UsualColdRuns}.", HelpName = "N", DefaultValueFactory = _ => UsualColdRuns };
        Between(cold, 0);
        Option<bool> noScript = new("--no-script") { Description = "Leaves out the comparison with a script in scikit-image, which takes some minutes." };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "bench",
            "Times the reading of one photo on this machine, beside its bare decoding and beside the least that any measuring of colour must do.",
            "leafscan bench",
            "leafscan bench --photo rose.jpg --no-script --json -")
        {
            photo, rounds, cold, noScript, json,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            world, parsed.GetValue(photo), parsed.GetValue(rounds), parsed.GetValue(cold), !parsed.GetValue(noScript), JsonOut.Target(parsed, json), cancel)));
        return command;
    }

    private static int Run(Surroundings world, string? own, int rounds, int cold, bool withScript, string? json, CancellationToken cancel)
    {
        string samples = Path.Combine(world.ProgramFolder, "sample-images");
        string photo = own ?? BenchPhoto.Make(Path.Combine(samples, "walk-2026-08-03", "B07", "leaf-1.jpg"), Path.GetTempPath());
        LearnedModels.ShareProcessors(1, Environment.ProcessorCount);
        BenchRun run = BenchRun.Of(
            photo, rounds, round => world.Err.WriteLine(round == 0 ? "Warming up ..." : $"Round {round} of {rounds} ..."), cancel);
        if (cold > 0)
        {
            world.Err.WriteLine("The program from its start ...");
        }

        ColdRuns? started = cold > 0 ? ColdRuns.Of(world.ProgramFolder, Path.GetFullPath(photo), cold, cancel) : null;
        if (withScript)
        {
            world.Err.WriteLine("The same measure as a script ...");
        }

        ScriptRun? script = withScript ? ScriptRun.Of(world.ProgramFolder, photo, cancel) : null;
        object document = BenchScreen.Document(ToolVersion.Current, photo, own is null, rounds, run, started, script);
        if (json is not null)
        {
            JsonOut.Write(world, json, document);
        }

        if (json != JsonOut.StandardOutput)
        {
            BenchScreen.Write(world.Out, run, started);
            if (script is not null)
            {
                world.Out.WriteLine();
                world.Out.WriteLine(script.Sentence(run.Reading.Seconds));
            }
        }

        return ExitCode.Done;
    }

    private static void Between(Option<int> option, int least) => option.Validators.Add(result =>
    {
        if (result.Tokens.Count > 0 && !(int.TryParse(result.Tokens[0].Value, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number >= least && number <= 99))
        {
            result.AddError($"{option.Name} takes a number from {least.ToString(CultureInfo.InvariantCulture)} to 99, not \"{result.Tokens[0].Value}\".");
        }
    });
}
