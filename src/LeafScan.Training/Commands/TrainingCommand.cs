using System.CommandLine;

namespace LeafScan.Training.Commands;

/// <summary>The command line of the workshop: render leaves with known truth, measure accuracy.</summary>
public static class TrainingCommand
{
    /// <summary>Builds all commands.</summary>
    public static RootCommand Build()
    {
        RootCommand root = new("Renders leaves with known truth and measures how accurate the measuring is.");
        Command render = RenderCommand.Build();
        render.Subcommands.Add(SeriesCommand.Twigs());
        render.Subcommands.Add(SeriesCommand.Plants());
        render.Subcommands.Add(SeriesCommand.Taps());
        render.Subcommands.Add(SeriesCommand.Sheets());
        root.Subcommands.Add(render);
        root.Subcommands.Add(BenchCommand.Build());
        root.Subcommands.Add(AblationCommand.Build());
        root.Subcommands.Add(RepeatCommand.Build());
        root.Subcommands.Add(TapBenchCommand.Build());
        root.Subcommands.Add(KindsCheckCommand.Build());
        root.Subcommands.Add(HealthyCheckCommand.Build());
        root.Subcommands.Add(ViewsCheckCommand.Build());
        root.Subcommands.Add(LookCommand.Build());
        root.Subcommands.Add(FrameCheckCommand.Build());
        root.Subcommands.Add(TagCheckCommand.Build());
        root.Subcommands.Add(SeasonsCommand.Build());
        root.Subcommands.Add(StoreBenchCommand.Build());
        root.Subcommands.Add(FuzzCommand.Build());
        root.Subcommands.Add(BlockBenchCommand.Build());
        root.Subcommands.Add(TrainPhotoKindCommand.Build());
        root.Subcommands.Add(TrainSpeckJudgeCommand.Build());
        return root;
    }
}
