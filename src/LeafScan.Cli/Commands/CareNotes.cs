using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>The options with which a person says what was done; the same words for a new entry and for one that is put right.</summary>
internal sealed class CareNotes
{
    /// <summary>The kinds of care, as words.</summary>
    public static readonly string[] Kinds = [.. Enum.GetNames<CareKind>().Select(name => name.ToLowerInvariant())];

    private readonly Option<string?> _note = Text("--note", "More in your own words, such as product and label number.");
    private readonly Option<string?> _active = Text("--active", "Active ingredient, as the label names it.");
    private readonly Option<string?> _group = Text("--mode-group", "IRAC mode-of-action group, such as 10A; the label shows it.");
    private readonly Option<string?> _label = Text("--label-number", "Registration number, as the label has it.");
    private readonly Option<string?> _target = Text("--against", "What it was against, such as eggs or crawlers.");
    private readonly Option<string?> _conditions = Text("--conditions", "Weather and circumstances, such as \"18 °C, no wind\".");

    /// <summary>Builds the options.</summary>
    public CareNotes() => What.OnlyOneOf(Kinds);

    /// <summary>What was done.</summary>
    public Option<string> What { get; } = new("--what") { Description = "What was done: " + string.Join(", ", Kinds) + ".", HelpName = "KIND" };

    /// <summary>On which day.</summary>
    public Option<DateOnly?> Date { get; } = OptionChecks.NewDay("--date", "Day on which it was done. Default: today.");

    /// <summary>The texts.</summary>
    public IReadOnlyList<Option> Texts => [_note, _active, _group, _label, _target, _conditions];

    /// <summary>An entry with what the options say in place of what it said; an empty text clears.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="old">The entry as it was.</param>
    public CareEntry Change(ParseResult parsed, CareEntry old) => old with
    {
        What = parsed.GetValue(What) is { } word ? Enum.Parse<CareKind>(word, ignoreCase: true) : old.What,
        Note = Now(parsed, _note, old.Note),
        Details = old.Details with
        {
            Active = Now(parsed, _active, old.Details.Active),
            ModeGroup = Now(parsed, _group, old.Details.ModeGroup),
            LabelNumber = Now(parsed, _label, old.Details.LabelNumber),
            Target = Now(parsed, _target, old.Details.Target),
            Conditions = Now(parsed, _conditions, old.Details.Conditions),
        },
    };

    private static string? Now(ParseResult parsed, Option<string?> option, string? old) => parsed.GetValue(option) is { } told ? (told.Length == 0 ? null : told) : old;

    private static Option<string?> Text(string name, string description) => new(name) { Description = description, HelpName = "TEXT" };
}
