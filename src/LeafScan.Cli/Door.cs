using System.CommandLine;
using System.CommandLine.Help;
using LeafScan.Cli.Commands;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;

namespace LeafScan.Cli;

/// <summary>The command line: words in, exit code out.</summary>
public static class Door
{
    /// <summary>Runs one command.</summary>
    /// <param name="args">The words after "leafscan".</param>
    /// <param name="world">Where to write and what time it is.</param>
    /// <param name="cancel">Fires on Ctrl-C and SIGTERM.</param>
    /// <returns>A number from <see cref="ExitCode"/>.</returns>
    public static async Task<int> RunAsync(string[] args, Surroundings world, CancellationToken cancel = default)
    {
        ParseResult parsed = Parse(args, world);
        if (parsed.Errors.Count > 0)
        {
            return TellWrongUse(parsed, world);
        }

        InvocationConfiguration settings = new()
        {
            Output = world.Out,
            Error = world.Err,
            EnableDefaultExceptionHandler = false,
            ProcessTerminationTimeout = null,
        };
        return await Trouble.GuardAsync(
            parsed,
            world,
            async () =>
            {
                int code = await parsed.InvokeAsync(settings, cancel).ConfigureAwait(false);
                await world.Out.FlushAsync(CancellationToken.None).ConfigureAwait(false);
                return code;
            }).ConfigureAwait(false);
    }

    /// <summary>Reads the words without doing anything.</summary>
    // A file name may start with "@": words are taken as they are, never as a file with more words.
    internal static ParseResult Parse(string[] args, Surroundings world) =>
        BuildRoot(world).Parse(args, new ParserConfiguration { ResponseFileTokenReplacer = null });

    private static RootCommand BuildRoot(Surroundings world)
    {
        RootCommand root = new(
            "LeafScan measures spider-mite damage on photos of leaves and keeps a series per plant.\n"
            + "Start with \"leafscan demo\"; \"leafscan COMMAND --help\" shows an example of each command.")
        {
            MeasureCommand.Build(world),
            WalkCommand.Build(world),
            ScoreCommand.Build(world),
            PlantsCommand.Build(world),
            SeriesCommand.Build(world),
            CompareCommand.Build(world),
            VerdictCommand.Build(world),
            NoteCommand.Build(world),
            CardCommand.Build(world),
            NextCommand.Build(world),
            ThresholdsCommand.Build(world),
            CareCommand.Build(world),
            WeatherCommand.Build(world),
            PhotosCommand.Build(world),
            UndoCommand.Build(world),
            BinCommand.Build(world),
            PrintCommand.Build(world),
            TapCommand.Build(world),
            ServeCommand.Build(world),
            BackupCommand.Build(world),
            RestoreCommand.Build(world),
            ExportCommand.Build(world),
            ImportCommand.Build(world),
            DoctorCommand.Build(world),
            DemoCommand.Build(world),
            BenchCommand.Build(world),
        };
        root.Options.Add(DataPlace.Option);
        root.SetAction(parsed =>
        {
            world.Err.WriteLine("Say what to do, for example: leafscan demo. All commands: leafscan --help");
            return ExitCode.WrongUse;
        });
        foreach (Option option in root.Options)
        {
            if (option is HelpOption { Action: HelpAction plain } help)
            {
                help.Action = new HelpWithExample(plain);
            }
            else if (option is VersionOption version)
            {
                version.Action = new OwnVersion();
            }
        }

        return root;
    }

    private static int TellWrongUse(ParseResult parsed, Surroundings world)
    {
        foreach (string message in parsed.Errors.Select(ParseWords.Of).Distinct())
        {
            world.Err.WriteLine(Words.OneLine(message.ReplaceLineEndings(" ")));
        }

        string path = string.Join(' ', Path(parsed.CommandResult.Command).Reverse());
        world.Err.WriteLine($"Nothing was done. See: {path} --help");
        return ExitCode.WrongUse;
    }

    private static IEnumerable<string> Path(Command command)
    {
        for (Command? step = command; step is not null and not RootCommand; step = step.Parents.OfType<Command>().FirstOrDefault())
        {
            yield return step.Name;
        }

        yield return "leafscan";
    }

    private sealed class OwnVersion : System.CommandLine.Invocation.SynchronousCommandLineAction
    {
        public override bool ClearsParseErrors => true;

        public override int Invoke(ParseResult parseResult)
        {
            parseResult.InvocationConfiguration.Output.WriteLine("leafscan " + ToolVersion.Current);
            return ExitCode.Done;
        }
    }
}
