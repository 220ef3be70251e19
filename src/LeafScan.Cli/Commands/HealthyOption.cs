using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Walks.Foliage;

namespace LeafScan.Cli.Commands;

/// <summary>--healthy: a photo of a twig or plant in health, whose colour stands in where the plant has no sound part left.</summary>
internal static class HealthyOption
{
    /// <summary>A new option.</summary>
    public static Option<string?> New(string description) => new("--healthy") { Description = description, HelpName = "PHOTO" };

    /// <summary>Reads the colour; says on standard error where the photo is hardly one of a healthy plant.</summary>
    /// <param name="world">The surroundings.</param>
    /// <param name="path">The photo.</param>
    /// <param name="how">How photos are measured.</param>
    /// <param name="safe">What did not happen when the photo is of no use, a sentence.</param>
    /// <param name="cancel">Stops between steps.</param>
    /// <exception cref="CommandException">The photo is of no use.</exception>
    public static HealthyOnRecord Read(Surroundings world, string path, MeasureOptions how, string safe, CancellationToken cancel)
    {
        HealthyFromPhoto read = HealthyFromPhoto.Read(path, how, cancel);
        if (read.Healthy is not { } healthy)
        {
            throw new CommandException(ExitCode.WrongUse, Words.OneLine($"{read.Useless} {safe} {read.Refusal!.Advice}"));
        }

        foreach (string remark in read.Remarks)
        {
            world.Err.WriteLine(remark);
        }

        return healthy;
    }
}
