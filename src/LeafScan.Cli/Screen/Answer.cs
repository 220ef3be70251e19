using System.CommandLine;

namespace LeafScan.Cli.Screen;

/// <summary>The usual end of a command that did one thing: a document where one was asked for, else a sentence or two.</summary>
internal static class Answer
{
    /// <summary>Gives the answer.</summary>
    /// <param name="world">Where to.</param>
    /// <param name="parsed">The words of the command.</param>
    /// <param name="json">Its option --json.</param>
    /// <param name="document">What goes into the document.</param>
    /// <param name="lines">What people read.</param>
    public static int Give(Surroundings world, ParseResult parsed, Option<string?> json, object document, params string[] lines)
    {
        string? target = JsonOut.Target(parsed, json);
        if (target is not null)
        {
            JsonOut.Write(world, target, document);
        }

        if (target != JsonOut.StandardOutput)
        {
            foreach (string line in lines)
            {
                world.Out.WriteLine(Words.OneLine(line));
            }
        }

        return ExitCode.Done;
    }
}
