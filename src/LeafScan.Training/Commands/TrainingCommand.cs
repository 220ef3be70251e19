using System.CommandLine;

namespace LeafScan.Training.Commands;

/// <summary>The command line of the workshop: render leaves with known truth, measure accuracy.</summary>
public static class TrainingCommand
{
    /// <summary>Builds all commands.</summary>
    public static RootCommand Build()
    {
        RootCommand root = new("Renders leaves with known truth and measures how accurate the measuring is.");
        root.Subcommands.Add(RenderCommand.Build());
        root.Subcommands.Add(BenchCommand.Build());
        root.Subcommands.Add(LookCommand.Build());
        return root;
    }
}
