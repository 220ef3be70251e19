using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace LeafScan.Cli.Screen;

/// <summary>A command that shows at the end of its help how it is used.</summary>
internal sealed class ExampleCommand(string name, string description, params string[] examples) : Command(name, description)
{
    /// <summary>Whole command lines, one each.</summary>
    public IReadOnlyList<string> Examples { get; } = examples;
}

/// <summary>The usual help of a command, with its examples below.</summary>
internal sealed class HelpWithExample(HelpAction plain) : SynchronousCommandLineAction
{
    /// <inheritdoc />
    public override int Invoke(ParseResult parseResult)
    {
        int result = plain.Invoke(parseResult);
        if (parseResult.CommandResult.Command is ExampleCommand { Examples.Count: > 0 } command)
        {
            TextWriter writer = parseResult.InvocationConfiguration.Output;
            writer.WriteLine(command.Examples.Count == 1 ? "Example:" : "Examples:");
            foreach (string line in command.Examples)
            {
                writer.WriteLine("  " + line);
            }

            writer.WriteLine();
        }

        return result;
    }
}
