using System.CommandLine;
using System.Globalization;
using LeafScan.Training.Bench;
using LeafScan.Training.Bench.Foliage;

namespace LeafScan.Training.Commands;

/// <summary>kinds-check: how well twigs and whole plants are measured.</summary>
internal static class KindsCheckCommand
{
    public static Command Build()
    {
        BenchFolders folders = new();
        Option<bool> each = new("--each") { Description = "Also a line for each photo." };
        Option<DirectoryInfo?> overlays = new("--overlays") { Description = "Folder that receives overlays and masks; made when missing." };
        Command command = new("kinds-check", "Measures rendered twigs and whole plants and prints how close the readings come.") { each, overlays };
        folders.AddTo(command);
        command.SetAction((parsed, cancel) =>
        {
            if (folders.Read(parsed, out int exitCode) is not { } cases)
            {
                return Task.FromResult(exitCode);
            }

            string? keep = parsed.GetValue(overlays)?.FullName;
            if (keep is not null)
            {
                Directory.CreateDirectory(keep);
            }

            List<FoliageScore> scores = [];
            foreach (TruthCase one in cases.Where(one => one.JsonPath is not null))
            {
                cancel.ThrowIfCancellationRequested();
                FoliageScore score = FoliageScore.Of(one, keep, cancel);
                scores.Add(score);
                if (parsed.GetValue(each))
                {
                    Console.Out.WriteLine(Line(score));
                }
            }

            foreach (IGrouping<string, FoliageScore> kind in scores.GroupBy(score => score.Truth.Kind).OrderBy(g => g.Key, StringComparer.Ordinal))
            {
                Console.Out.WriteLine($"{kind.Key}:");
                foreach ((string name, string value) in new FoliageTotals([.. kind]).Lines())
                {
                    Console.Out.WriteLine($"  {name}: {value}");
                }
            }

            return Task.FromResult(0);
        });
        return command;
    }

    private static string Line(FoliageScore s)
    {
        if (s.Reading is not { } r)
        {
            return $"{s.Name} refused: {s.Refused}";
        }

        string crown = r.Crown is { } c ? string.Create(CultureInfo.InvariantCulture, $" thin {c.Thinning:0.000}/{s.Truth.Thinned:0.000} side {c.WorstSide}/{s.Truth.WorseSide} fall {c.FallColour:0.00}/{s.Truth.FallColour:0.00}") : string.Empty;
        crown += s.SpecksPerCmOfNeedle is { } perCm ? string.Create(CultureInfo.InvariantCulture, $" per cm {perCm:0.0}/{s.Truth.SpecksPerCmOfNeedle ?? -1:0.0}") : string.Empty;
        string causes = string.Join(' ', r.Causes.Take(3).Select(cause => string.Create(CultureInfo.InvariantCulture, $"{cause.Cause} {cause.Score:0.00}")));
        return string.Create(CultureInfo.InvariantCulture,
            $"{s.Name} {s.Truth.Host} {s.Truth.Cause} damage {r.Damage:0.000}/{s.Truth.Discoloured:0.000} [{r.DamageLow:0.00} {r.DamageHigh:0.00}] overlap {s.OutlineIou:0.00} new {r.NewGrowth ?? -1:0.00}/{s.Truth.NewGrowth:0.00}{crown} st {r.Shares.Stippled:0.000} ye {r.Shares.Yellowed:0.000} br {r.Shares.Browned:0.000} | {causes} | {string.Join(' ', r.Flags)} {s.Seconds:0.0} s");
    }
}
