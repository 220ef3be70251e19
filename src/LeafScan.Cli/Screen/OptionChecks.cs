using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using LeafScan.Records;

namespace LeafScan.Cli.Screen;

/// <summary>Checks of option values whose messages say what would be right.</summary>
internal static class OptionChecks
{
    /// <summary>Takes only the given words.</summary>
    public static void OnlyOneOf(this Option<string> option, IReadOnlyList<string> words) => Only(option, words);

    /// <summary>Takes only the given words, or stays away.</summary>
    public static void OnlyOneOfOrNone(this Option<string?> option, IReadOnlyList<string> words) => Only(option, words);

    private static void Only(Option option, IReadOnlyList<string> words)
    {
        option.CompletionSources.Add([.. words]);
        option.Validators.Add(result =>
        {
            string? value = result.Tokens.Count > 0 ? result.Tokens[0].Value : null;
            if (value is not null && !words.Contains(value, StringComparer.Ordinal))
            {
                result.AddError($"{option.Name} takes {string.Join(", ", words.SkipLast(1))} or {words[^1]}, not \"{value}\".");
            }
        });
    }

    /// <summary>The same of an argument.</summary>
    public static void OnlyOneOf(this Argument<string> argument, IReadOnlyList<string> words)
    {
        argument.CompletionSources.Add([.. words]);
        argument.Validators.Add(result =>
        {
            string? value = result.Tokens.Count > 0 ? result.Tokens[0].Value : null;
            if (value is not null && !words.Contains(value, StringComparer.Ordinal))
            {
                result.AddError($"{argument.Name} is {string.Join(", ", words.SkipLast(1))} or {words[^1]}, not \"{value}\".");
            }
        });
    }

    /// <summary>The number that was given, or null where there is none; a word that is no number is told later, by <see cref="ParseWords"/>.</summary>
    public static double? Number(this OptionResult result) =>
        result.Tokens.Count > 0 && double.TryParse(result.Tokens[0].Value, NumberStyles.Float | NumberStyles.AllowThousands, CultureInfo.InvariantCulture, out double number) ? number : null;

    /// <summary>The day on which something was done: the one named, else today.</summary>
    /// <exception cref="CommandException">It lies in the future, or so long ago that a figure must be wrong.</exception>
    public static DateOnly DayDone(DateOnly? named, Surroundings world)
    {
        DateOnly today = DateOnly.FromDateTime(world.Time.GetLocalNow().DateTime), day = named ?? today;

        // A day more: whoever works across a date line or has a slow clock is not wrong.
        return day >= RecordDays.Earliest && day <= today.AddDays(1)
            ? day
            : throw new CommandException(ExitCode.WrongUse, $"{Words.Day(day)} lies in the future or long ago. Nothing was kept. Give a day from {Words.Day(RecordDays.Earliest)} to today.");
    }

    /// <summary>An option that takes a day written 2026-07-02.</summary>
    public static Option<DateOnly?> NewDay(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "YYYY-MM-DD",
        CustomParser = result =>
        {
            if (DateOnly.TryParseExact(result.Tokens[0].Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day))
            {
                return day;
            }

            result.AddError($"{name} takes a day such as 2026-07-02, not \"{result.Tokens[0].Value}\".");
            return null;
        },
    };
}
