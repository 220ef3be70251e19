using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Notes.Exports;
using LeafScan.Photos;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>export readings, series, block: tables for spreadsheets and other programs.</summary>
internal static class ExportTableCommand
{
    private static readonly string[] Endings = [".csv", ".json"];

    /// <summary>export readings.</summary>
    public static Command Readings(Surroundings world)
    {
        Argument<string?> code = PlantArgument();
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> block = GroupChoice.NewBlockOption();
        Option<string?> client = GroupChoice.NewClientOption();
        Option<DateOnly?> from = NewFrom();
        Option<DateOnly?> to = NewTo();
        Option<string> file = NewOut();
        ExampleCommand command = new(
            "readings", "Writes a row for every leaf on record.", "leafscan export readings --out readings.csv", "leafscan export readings EU-1 --from 2026-06-01 --out eu-1.json")
        {
            code, place, block, client, from, to, file,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            GroupChoice group = new(parsed.GetValue(place), parsed.GetValue(block), parsed.GetValue(client));
            PhotoRange range = Range(store, parsed.GetValue(code), group, parsed.GetValue(from), parsed.GetValue(to));
            return Write(world, parsed.GetValue(file)!, ReadingsTable.Of(store, range), "leaf", "leaves");
        });
        return command;
    }

    /// <summary>export series.</summary>
    public static Command Series(Surroundings world)
    {
        Argument<string?> code = PlantArgument();
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> block = GroupChoice.NewBlockOption();
        Option<string?> client = GroupChoice.NewClientOption();
        Option<string> file = NewOut();
        ExampleCommand command = new(
            "series", "Writes a row for every walk of every plant.", "leafscan export series --out series.csv", "leafscan export series --place \"Hill nursery\" --out series.json")
        {
            code, place, block, client, file,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            IReadOnlyList<Plant> plants = Plants(store, parsed.GetValue(code), new GroupChoice(parsed.GetValue(place), parsed.GetValue(block), parsed.GetValue(client)));
            return Write(world, parsed.GetValue(file)!, SeriesTable.Of(store, plants), "row", "rows");
        });
        return command;
    }

    /// <summary>export block.</summary>
    public static Command Block(Surroundings world)
    {
        Argument<string> name = new("BLOCK") { Description = "Name of the block." };
        Option<string?> place = new("--place") { Description = "Only of this place.", HelpName = "NAME" };
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "As it stood on this day: walks after it are passed over. Default: today.");
        Option<string> file = NewOut();
        ExampleCommand command = new(
            "block", "Writes a row for every plant of a block, with its last walk.", "leafscan export block \"South bed\" --out south-bed.csv", "leafscan export block B --date 2026-07-31 --out block-b.json")
        {
            name, place, date, file,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            IReadOnlyList<Plant> plants = new GroupChoice(parsed.GetValue(place), parsed.GetValue(name), null).Plants(store);
            DateOnly day = parsed.GetValue(date) ?? DateOnly.FromDateTime(world.Time.GetLocalNow().DateTime);
            Plant[] ordered = [.. plants.OrderBy(plant => plant.PlaceName, NaturalOrder.Comparer).ThenBy(plant => plant.Facts.Row ?? "", NaturalOrder.Comparer)
                .ThenBy(plant => plant.Facts.Position ?? "", NaturalOrder.Comparer).ThenBy(plant => plant.Code, NaturalOrder.Comparer)];
            return Write(world, parsed.GetValue(file)!, BlockTable.Of(store, ordered, day), "plant", "plants");
        });
        return command;
    }

    /// <summary>Argument PLANT that may be left out.</summary>
    public static Argument<string?> PlantArgument() => new("PLANT") { Description = "Code of the plant. Default: everything on record.", Arity = ArgumentArity.ZeroOrOne };

    /// <summary>Option --from.</summary>
    public static Option<DateOnly?> NewFrom() => OptionChecks.NewDay("--from", "First day.");

    /// <summary>Option --to.</summary>
    public static Option<DateOnly?> NewTo() => OptionChecks.NewDay("--to", "Last day.");

    /// <summary>The photos a person means.</summary>
    public static PhotoRange Range(RecordStore store, string? code, GroupChoice group, DateOnly? from, DateOnly? to)
    {
        if (from > to)
        {
            throw new CommandException(ExitCode.WrongUse, $"--from {Words.Day(from.Value)} lies after --to {Words.Day(to.Value)}; nothing was written.");
        }

        return new PhotoRange(code is null && !group.IsNamed ? null : Plants(store, code, group).Select(plant => plant.Id).ToHashSet(), from, to);
    }

    private static IReadOnlyList<Plant> Plants(RecordStore store, string? code, GroupChoice group) => code is null ? group.Plants(store)
        : group.Block is null && group.Client is null ? [PlantChoice.One(store, code, group.Place)]
        : throw new CommandException(ExitCode.WrongUse, "A plant needs no --block and no --client; of two plants with one code --place tells which. Nothing was written.");

    private static Option<string> NewOut() => PrintCommand.NewOutOption("File to write: CSV for a spreadsheet, or JSON for programs.", Endings);

    private static int Write(Surroundings world, string target, ExportTable table, string one, string many)
    {
        if (target.EndsWith(".csv", StringComparison.OrdinalIgnoreCase))
        {
            CsvOut.Write(world, target, table.ToCsv());
        }
        else
        {
            JsonOut.Write(world, target, table.ToDocument());
        }

        world.Out.WriteLine(Words.OneLine($"Written: {target} ({Words.Count(table.Rows.Count, one, many)})."));
        return ExitCode.Done;
    }
}
