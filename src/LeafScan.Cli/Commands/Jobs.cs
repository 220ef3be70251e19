using System.CommandLine;
using System.Globalization;
using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Commands;

/// <summary>The option --jobs of commands that measure.</summary>
internal static class Jobs
{
    private const int Most = 64;

    /// <summary>A new option: 1 to 64, by default as many as the machine's processors and memory allow.</summary>
    public static Option<int> NewOption()
    {
        Option<int> jobs = new("--jobs")
        {
            Description = $"Photos measured at the same time, 1 to {Most}; default: what processors and memory allow.",
            HelpName = "N",
            DefaultValueFactory = _ => MeasureJob.UsualWorkers(),
            CustomParser = result =>
            {
                if (int.TryParse(result.Tokens[0].Value, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number is >= 1 and <= Most)
                {
                    return number;
                }

                result.AddError($"--jobs takes a number from 1 to {Most}, not \"{result.Tokens[0].Value}\".");
                return 1;
            },
        };
        return jobs;
    }
}
