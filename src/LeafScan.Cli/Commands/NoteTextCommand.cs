using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>note text: a part of the client's note in a person's own words, kept with the record.</summary>
internal static class NoteTextCommand
{
    private static readonly string[] Parts = [.. Enum.GetNames<NoteBlock>().Select(name => name.ToLowerInvariant())];

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string?> code = new("PLANT") { Description = "Code of the plant; without it the text is for the notes on the place of --place.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string> part = new("--part") { Description = "Which part of the note: " + string.Join(", ", Parts) + ".", HelpName = "PART", Required = true };
        part.OnlyOneOf(Parts);
        Option<string> say = new("--say") { Description = "The words; a line break begins a new line of the note. \"\" takes your text away again.", HelpName = "TEXT", Required = true };
        Option<DateOnly?> walk = OptionChecks.NewDay("--walk", "Day of the walk to whose note the text belongs. Default: it stands until it is changed.");
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "text", "Keeps a part of a note in your own words, in place of what is composed; a greeting and a closing are yours alone.",
            "leafscan note text EU-1 --part greeting --say \"Dear Ms Lund,\"",
            "leafscan note text EU-1 --part next --say \"I come again on Friday.\" --walk 2026-07-02")
        {
            code, place, part, say, walk, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            (Plant? plant, Place where) = NoteCommand.Subject(store, parsed.GetValue(code), parsed.GetValue(place));
            NoteBlock block = Enum.Parse<NoteBlock>(parsed.GetValue(part)!, ignoreCase: true);
            DateOnly? day = parsed.GetValue(walk);
            string words = parsed.GetValue(say)!;
            if (plant is null)
            {
                store.SetNoteTextOfPlace(where.Id, block, day, words, "note text");
            }
            else
            {
                store.SetNoteTextOfPlant(plant.Id, block, day, words, "note text");
            }

            string whose = plant is null ? where.Name : $"{plant.Code} in {plant.PlaceName}";
            string when = day is { } known ? $", for the walk of {Words.Day(known)}" : string.Empty;
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.note-text/1", tool = ToolVersion.Current, code = plant?.Code, place = where.Name, part = parsed.GetValue(part), walk = day is { } told ? Words.Day(told) : null, text = string.IsNullOrWhiteSpace(words) ? null : words },
                string.IsNullOrWhiteSpace(words) ? $"Taken away: {parsed.GetValue(part)} of the note on {whose}{when}. Back with: leafscan undo" : $"Kept: {parsed.GetValue(part)} of the note on {whose}{when}. Back with: leafscan undo");
        });
        return command;
    }
}
