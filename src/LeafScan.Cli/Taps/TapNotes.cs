using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Records;

namespace LeafScan.Cli.Taps;

/// <summary>The options with which a person says how a tap was done; the same words wherever a tap goes on record.</summary>
internal sealed class TapNotes
{
    private readonly Option<int?> _strikes = new("--strikes") { Description = "How often each branch was struck.", HelpName = "N" };
    private readonly Option<int?> _branches = new("--branches") { Description = "Branches that were struck over this sheet before it was counted; mites are reckoned a branch. Default: one.", HelpName = "N" };
    private readonly Option<int?> _predators = new("--predators") { Description = "Predators on the sheet, 0 when there were none; leave out when you did not look.", HelpName = "N" };
    private readonly Option<double?> _hours = new("--hours-since-rinse") { Description = "Hours since the plant was last wet by rinse or rain.", HelpName = "H" };
    private readonly Option<string?> _sheet = new("--sheet") { Description = "Size of the sheet in mm, such as 210x297.", HelpName = "WxH" };
    private readonly Option<string?> _note = new("--note") { Description = "More in your own words.", HelpName = "TEXT" };

    /// <summary>All of them, for a command.</summary>
    public IReadOnlyList<Option> Options => [_strikes, _branches, _predators, _hours, _sheet, _note];

    /// <summary>The tap as the options tell it, without counts of mites.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="plantId">Plant.</param>
    /// <param name="day">Day of the tap.</param>
    /// <exception cref="CommandException">The size of the sheet cannot be read.</exception>
    public NewTap Read(ParseResult parsed, long plantId, DateOnly day)
    {
        (double Width, double Height)? size = SizeOf(parsed.GetValue(_sheet));
        return new NewTap
        {
            PlantId = plantId,
            Day = day,
            Strikes = parsed.GetValue(_strikes),
            Branches = parsed.GetValue(_branches),
            Predators = parsed.GetValue(_predators),
            HoursSinceWet = parsed.GetValue(_hours),
            SheetWidthMm = size?.Width,
            SheetHeightMm = size?.Height,
            Note = parsed.GetValue(_note),
        };
    }

    /// <summary>What can be taken away from a tap, by the names of the options that set it.</summary>
    public static readonly string[] Clearable = ["mites", "by-photo", "strikes", "branches", "predators", "hours-since-rinse", "sheet", "note"];

    /// <summary>A tap with what the options say in place of what it said.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="old">The tap as it was.</param>
    /// <exception cref="CommandException">The size of the sheet cannot be read.</exception>
    public NewTap Change(ParseResult parsed, NewTap old)
    {
        NewTap told = Read(parsed, old.PlantId, old.Day);
        return old with
        {
            Strikes = told.Strikes ?? old.Strikes,
            Branches = told.Branches ?? old.Branches,
            Predators = told.Predators ?? old.Predators,
            HoursSinceWet = told.HoursSinceWet ?? old.HoursSinceWet,
            SheetWidthMm = told.SheetWidthMm ?? old.SheetWidthMm,
            SheetHeightMm = told.SheetHeightMm ?? old.SheetHeightMm,
            Note = told.Note ?? old.Note,
        };
    }

    /// <summary>A tap without some of what was noted.</summary>
    /// <param name="tap">The tap.</param>
    /// <param name="names">Some of <see cref="Clearable"/>.</param>
    public static NewTap Cleared(NewTap tap, IEnumerable<string> names) => names.Aggregate(tap, (now, name) => name switch
    {
        "mites" => now with { MitesByLens = null },
        "by-photo" => now with { MitesByPhoto = null },
        "strikes" => now with { Strikes = null },
        "branches" => now with { Branches = null },
        "predators" => now with { Predators = null },
        "hours-since-rinse" => now with { HoursSinceWet = null },
        "sheet" => now with { SheetWidthMm = null, SheetHeightMm = null },
        _ => now with { Note = null },
    });

    /// <summary>True when one of them was given: then a plant must be named too.</summary>
    public bool AnyGiven(ParseResult parsed) => Options.Any(option => parsed.GetResult(option) is { Implicit: false });

    /// <summary>A tap on record, as a sentence.</summary>
    public static string Sentence(Plant plant, TapOnRecord kept)
    {
        NewTap tap = kept.Tap;
        string struck = Struck(kept);
        string hunters = tap.Predators is { } count ? $", {Words.Count(count, "predator")}" : string.Empty;
        string counted = tap.MitesByLens is null ? "crawling on the photos" : "live mite" + (kept.LiveMites == 1 ? string.Empty : "s");
        return string.Create(CultureInfo.InvariantCulture, $"Kept: {kept.LiveMites} {counted}{struck}{hunters} on {plant.Code} in {plant.PlaceName}, {Words.Day(tap.Day)}.");
    }

    /// <summary>From how many branches and strikes, with a space before it; empty when neither was told.</summary>
    public static string Struck(TapOnRecord kept)
    {
        string branches = kept.BranchCount > 1 ? $" from {Words.Count(kept.BranchCount, "branch", "branches")}" : string.Empty;
        string strikes = kept.Tap.Strikes is not { } times ? string.Empty : kept.BranchCount > 1 ? $", {Words.Count(times, "strike")} each" : $" from {Words.Count(times, "strike")}";
        string each = kept.BranchCount > 1 ? string.Create(CultureInfo.InvariantCulture, $" ({(double)kept.LiveMites / kept.BranchCount:0.0} a branch)") : string.Empty;
        return branches + strikes + each;
    }

    private static (double Width, double Height)? SizeOf(string? text)
    {
        if (text is null)
        {
            return null;
        }

        string[] parts = text.Split('x', 'X');
        return parts.Length == 2 && Number(parts[0]) is { } width && Number(parts[1]) is { } height
            ? (width, height)
            : throw new CommandException(ExitCode.WrongUse, $"--sheet takes width and height in mm such as 210x297, not \"{text}\". Nothing was kept.");
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value) ? value : null;
}
