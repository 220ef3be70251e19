using System.CommandLine;
using LeafScan.Cli.Checks;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;

namespace LeafScan.Cli.Commands;

/// <summary>doctor: is everything there that is needed, and where does everything lie?</summary>
internal static class DoctorCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new("doctor", "Checks libraries, networks, fonts, disk and record, and says in words what to do.", "leafscan doctor")
        {
            json,
        };
        command.SetAction(parsed =>
        {
            List<Check> checks = [.. MachineChecks.All(), .. PlaceChecks.All(() => DataPlace.Of(parsed, world), world.Time)];
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, Document(checks));
            }

            if (target != JsonOut.StandardOutput)
            {
                Write(world, checks);
            }

            return checks.Exists(check => check.State == CheckState.Wrong) ? ExitCode.StoreTrouble : ExitCode.Done;
        });
        return command;
    }

    private static void Write(Surroundings world, List<Check> checks)
    {
        TextTable table = new("what", "state", "found");
        foreach (Check check in checks)
        {
            table.Add(check.What, check.State.ToString().ToLowerInvariant(), check.Words);
        }

        table.WriteTo(world.Out);
        foreach (Check check in checks.Where(check => check.Advice is not null))
        {
            world.Out.WriteLine($"{check.What}: {check.Advice}");
        }
    }

    private static object Document(List<Check> checks) => new
    {
        schema = "leafscan.doctor/1",
        tool = ToolVersion.Current,
        good = checks.TrueForAll(check => check.State != CheckState.Wrong),
        checks = checks.Select(check => new { check.What, state = check.State.ToString().ToLowerInvariant(), found = check.Words, check.Advice }),
    };
}
