using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using LeafScan.Training.Rendering;
using LeafScan.Training.Seasons;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Training.Commands;

/// <summary>seasons: how often the verdict on care is right on invented seasons whose truth is known.</summary>
internal static class SeasonsCommand
{
    private static readonly JsonSerializerOptions Layout = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true };

    public static Command Build()
    {
        Option<int> seasons = new("--seasons") { Description = "Seasons of each strength of care, 1 to 100000; 400 by default.", DefaultValueFactory = _ => 400 };
        Option<int> seed = new("--seed") { Description = "Seed of the first; the others follow. 1 by default.", DefaultValueFactory = _ => 1 };
        Option<bool> keptAside = new("--kept-aside") { Description = "Allows seeds that are kept aside for reporting." };
        Option<bool> json = new("--json") { Description = "Writes the counts as JSON." };
        Option<double> noise = new("--photo-noise") { Description = "Errors of single photos, times those of docs/accuracy.md, 0 to 10; 1 by default.", DefaultValueFactory = _ => 1 };
        Option<double> variety = new("--plant-variety") { Description = "How much plants differ in growth and day of the crash, times what is usual, 0 to 10; 1 by default.", DefaultValueFactory = _ => 1 };
        Option<bool> untagged = new("--untagged") { Description = "Other leaves are photographed at each visit." };
        Command command = new("seasons", "Runs invented seasons with and without care, judges them as a person's record would be judged, and says how often the verdict is right.")
        {
            seasons, seed, noise, variety, untagged, keptAside, json,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            parsed.GetValue(seasons), parsed.GetValue(seed), new PhotoHabit(parsed.GetValue(noise), !parsed.GetValue(untagged)), parsed.GetValue(variety), parsed.GetValue(keptAside), parsed.GetValue(json), cancel)));
        return command;
    }

    private static int Run(int count, int seed, PhotoHabit habit, double variety, bool mayReport, bool asJson, CancellationToken cancel)
    {
        if (count is < 1 or > 100_000 || seed < 0 || seed > int.MaxValue - count)
        {
            Console.Error.WriteLine("Give --seasons a number from 1 to 100000 and --seed one that leaves room for them; nothing was run.");
            return 1;
        }

        if (!(habit.Noise is >= 0 and <= 10) || !(variety is >= 0 and <= 10))
        {
            Console.Error.WriteLine("Give --photo-noise and --plant-variety numbers from 0 to 10; nothing was run.");
            return 1;
        }

        if (!mayReport && KeptAside.Touches(seed, count))
        {
            Console.Error.WriteLine($"Seeds {KeptAside.First} to {KeptAside.Last} are kept aside for reporting; nothing was run. Choose others, or add --kept-aside when you only report.");
            return 1;
        }

        SeasonTable table = new(Trials(count, seed, habit, variety, cancel));
        Console.Out.WriteLine(asJson ? JsonSerializer.Serialize(Document(table, count, seed, habit, variety), Layout) : table.Markdown());
        if (table.Worst is { } worst)
        {
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Most often wrong: {worst.Cell.WrongShare * 100:0.0} % of {worst.Cell.Seasons} seasons ({worst.Truth}, {worst.Design})."));
        }

        return 0;
    }

    private static IEnumerable<SeasonTrial> Trials(int count, int seed, PhotoHabit habit, double variety, CancellationToken cancel)
    {
        VerdictOptions options = new();
        for (int i = 0; i < count; i++)
        {
            foreach (CareStrength strength in Enum.GetValues<CareStrength>())
            {
                cancel.ThrowIfCancellationRequested();
                foreach (SeasonTrial trial in SeasonTrial.Of(seed + i, strength, options, habit, variety))
                {
                    yield return trial;
                }
            }
        }
    }

    private static object Document(SeasonTable table, int count, int seed, PhotoHabit habit, double variety) => new
    {
        schema = "leafscan.seasons/1",
        seasons = count,
        seed,
        photoNoise = habit.Noise,
        plantVariety = variety,
        tagged = habit.IsTagged,
        cells = table.Cells.Select(cell => new
        {
            leaves = cell.Key.Design.Leaves,
            visits = cell.Key.Design.Visits,
            untreatedPlants = cell.Key.Design.HasChecks,
            taps = cell.Key.Design.HasTaps,
            truth = JsonNamingPolicy.CamelCase.ConvertName(cell.Key.Truth.ToString()),
            counts = cell.Value,
        }),
    };
}
