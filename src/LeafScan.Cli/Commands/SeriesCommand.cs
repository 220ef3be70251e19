using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Cli.Commands;

/// <summary>series: one plant, walk by walk, with what was done to it between.</summary>
internal static class SeriesCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> code = PlantChoice.NewArgument();
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new("series", "Shows one plant walk by walk, with the care between.", "leafscan series EU-1", "leafscan series EU-1 --json")
        {
            code, place, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Plant plant = PlantChoice.One(store, parsed.GetValue(code)!, parsed.GetValue(place));
            IReadOnlyList<SeriesPoint> points = Chance.SeriesOf(store, plant.Id);
            IReadOnlyList<CareEntry> care = store.CareOfPlant(plant.Id);
            IReadOnlyList<TapOnRecord> taps = store.TapsOfPlant(plant.Id);
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, Document(plant, points, care, taps));
            }

            if (target != JsonOut.StandardOutput)
            {
                Write(world.Out, plant, points, care, taps);
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static void Write(TextWriter writer, Plant plant, IReadOnlyList<SeriesPoint> points, IReadOnlyList<CareEntry> care, IReadOnlyList<TapOnRecord> taps)
    {
        writer.WriteLine($"{plant.Code} in {plant.PlaceName}{(plant.Species is { } species ? $", {species}" : string.Empty)}. Means over leaves, in %.");
        TextTable table = new("date", ">leaves", ">damage", "90 % range", ">stippled", ">yellowed", ">browned", ">chewed", "leaves with 5 % or more", "care and taps");
        var lines = points.Select(point => (Day: point.WalkedOn, Rank: 0, Cells: Cells(point)))
            .Concat(taps.Select(tap => (tap.Tap.Day, Rank: 1, Cells: Cells(tap))))
            .Concat(care.Select(entry => (Day: entry.DoneOn, Rank: 2, Cells: Cells(entry))));
        foreach ((DateOnly _, int _, string[] cells) in lines.OrderBy(line => line.Day).ThenBy(line => line.Rank))
        {
            table.Add(cells);
        }

        table.WriteTo(writer);
        if (points.Count > 1)
        {
            writer.WriteLine("Damage does not heal: a mean falls only by new leaves, leaf drop or other leaves in the photos.");
        }
    }

    private static string[] Cells(SeriesPoint point)
    {
        LeafFigures leaves = point.Leaves;
        return
        [
            Words.Day(point.WalkedOn),
            Words.Number(leaves.LeafCount),
            leaves.Damage is { } damage ? Words.Percent(damage) : "-",
            FigureDocument.Range(leaves.DamageInterval),
            leaves.Shares is { } shares ? Words.Percent(shares.Stippled) : "-",
            leaves.Shares is { } yellow ? Words.Percent(yellow.Yellowed) : "-",
            leaves.Shares is { } brown ? Words.Percent(brown.Browned) : "-",
            leaves.Shares is { } chewed ? Words.Percent(chewed.Chewed) : "-",
            leaves.AffectedInterval is { } range
                ? string.Create(CultureInfo.InvariantCulture, $"{leaves.AffectedCount} of {leaves.LeafCount} ({range.Low * 100:0} to {range.High * 100:0} % of all)")
                : string.Empty,
            string.Empty,
        ];
    }

    private static string[] Cells(CareEntry entry)
    {
        string words = entry.What.ToString().ToLowerInvariant() + (entry.Note is { } note ? $": {note}" : string.Empty);
        return [Words.Day(entry.DoneOn), "", "", "", "", "", "", "", "", words];
    }

    private static string[] Cells(TapOnRecord tap)
    {
        string struck = tap.Tap.Strikes is { } strikes ? $" from {Words.Count(strikes, "strike")}" : string.Empty;
        string hunters = tap.Tap.Predators is { } predators ? $", {Words.Count(predators, "predator")}" : string.Empty;
        string note = tap.Tap.Note is { } words ? $": {words}" : string.Empty;
        return [Words.Day(tap.Tap.Day), "", "", "", "", "", "", "", "", $"tap, {Words.Count(tap.LiveMites, "mite")}{struck}{hunters}{note}"];
    }

    private static object Document(Plant plant, IReadOnlyList<SeriesPoint> points, IReadOnlyList<CareEntry> care, IReadOnlyList<TapOnRecord> taps) => new
    {
        schema = "leafscan.series/1",
        tool = ToolVersion.Current,
        code = plant.Code,
        place = plant.PlaceName,
        name = plant.Name,
        species = plant.Species,
        walks = points.Select(point => new { date = Words.Day(point.WalkedOn), figures = FigureDocument.Of(point.Leaves) }),
        care = care.Select(entry => new { number = entry.Id, date = Words.Day(entry.DoneOn), what = entry.What.ToString().ToLowerInvariant(), note = entry.Note }),
        taps = taps.Select(tap => new
        {
            number = tap.Id,
            date = Words.Day(tap.Tap.Day),
            mites = tap.LiveMites,
            strikes = tap.Tap.Strikes,
            predators = tap.Tap.Predators,
            hoursSinceRinse = tap.Tap.HoursSinceWet,
            note = tap.Tap.Note,
        }),
    };
}
