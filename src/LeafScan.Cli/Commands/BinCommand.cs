using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>bin: what was taken out of the record, and back.</summary>
internal static class BinCommand
{
    private static readonly string[] Kinds = ["photo", "tap", "care"];

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new("bin", "Lists what lies in the bin. Nothing is ever deleted from it.", "leafscan bin", "leafscan bin restore tap 3", "leafscan bin add care 5 --reason \"other plant\"")
        {
            json, Move(world, "add", "Puts a photo, tap or care entry into the bin, by the number that photos and series --json show."), Move(world, "restore", "Takes something back out of the bin."),
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            IReadOnlyList<BinEntry> entries = store.Bin();
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, Document(entries));
            }

            if (target != JsonOut.StandardOutput)
            {
                Write(world.Out, entries);
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand Move(Surroundings world, string word, string description)
    {
        Argument<string> kind = new("KIND") { Description = "photo, tap or care." };
        kind.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && !Kinds.Contains(result.Tokens[0].Value, StringComparer.Ordinal))
            {
                result.AddError($"The bin holds photo, tap or care, not \"{result.Tokens[0].Value}\".");
            }
        });
        Argument<long> number = new("NUMBER") { Description = "Its number." };
        Option<string?> reason = new("--reason") { Description = "Why, for the list of edits.", HelpName = "TEXT" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(word, description, $"leafscan bin {word} photo 17")
        {
            kind, number, reason, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            BinKind what = Enum.Parse<BinKind>(parsed.GetValue(kind)!, ignoreCase: true);
            long id = parsed.GetValue(number);
            string why = parsed.GetValue(reason) ?? "bin " + word;
            bool done = word == "add" ? store.PutInBin(what, id, why) : store.TakeFromBin(what, id, why);
            string name = string.Create(CultureInfo.InvariantCulture, $"{parsed.GetValue(kind)} {id}");
            return done
                ? Answer.Give(
                    world, parsed, json, new { schema = "leafscan.binned/1", tool = ToolVersion.Current, kind = parsed.GetValue(kind), number = id, isInBin = word == "add" },
                    word == "add" ? $"In the bin: {name}." : $"Back in the record: {name}.")
                : throw new CommandException(ExitCode.WrongUse, $"There is no {name} {(word == "add" ? "outside the bin" : "in the bin")}. Nothing was changed. What lies there: leafscan bin");
        });
        return command;
    }

    private static void Write(TextWriter writer, IReadOnlyList<BinEntry> entries)
    {
        if (entries.Count == 0)
        {
            writer.WriteLine("The bin is empty.");
            return;
        }

        TextTable table = new("kind", ">number", "what", "plant", "place", "day", "put there (UTC)");
        foreach (BinEntry entry in entries)
        {
            table.Add(
                entry.Kind.ToString().ToLowerInvariant(), entry.Id.ToString(CultureInfo.InvariantCulture), entry.Words, entry.PlantCode ?? "-", entry.PlaceName, Words.Day(entry.Day),
                entry.DeletedAt.UtcDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture));
        }

        table.WriteTo(writer);
        writer.WriteLine("To take one back: leafscan bin restore KIND NUMBER");
    }

    private static object Document(IReadOnlyList<BinEntry> entries) => new
    {
        schema = "leafscan.bin/1",
        tool = ToolVersion.Current,
        entries = entries.Select(entry => new
        {
            kind = entry.Kind.ToString().ToLowerInvariant(),
            number = entry.Id,
            what = entry.Words,
            plant = entry.PlantCode,
            place = entry.PlaceName,
            date = Words.Day(entry.Day),
            deletedUtc = entry.DeletedAt.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
        }),
    };
}
