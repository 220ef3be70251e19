using System.Text.RegularExpressions;
using LeafScan.Records;

namespace LeafScan.Trends.NextSteps;

/// <summary>
/// Mode-of-action groups of miticides. Mites that outlive one product outlive all of its group: rotate the group, not the brand. Oil,
/// soap and water have none.
/// </summary>
public static partial class ModeGroups
{
    // Groups after IRAC. Read: 3A, 6, 10A (Rutgers), 10A and 10B (Cloyd 2021), 20B and 23 (Rutgers); the rest is from memory and marked.
    private static readonly (string Active, string Group, bool IsFromMemory)[] Known =
    [
        ("bifenthrin", "3A", false),
        ("fluvalinate", "3A", false),
        ("abamectin", "6", false),
        ("milbemectin", "6", true),
        ("clofentezine", "10A", false),
        ("hexythiazox", "10A", false),
        ("etoxazole", "10B", false),
        ("fenbutatin", "12B", true),
        ("propargite", "12C", true),
        ("chlorfenapyr", "13", true),
        ("acequinocyl", "20B", false),
        ("bifenazate", "20D", true),
        ("fenpyroximate", "21A", true),
        ("pyridaben", "21A", true),
        ("tebufenpyrad", "21A", true),
        ("fenazaquin", "21A", true),
        ("spiromesifen", "23", false),
        ("spirotetramat", "23", true),
        ("spirodiclofen", "23", true),
        ("cyflumetofen", "25A", true),
        ("cyenopyrafen", "25A", true),
    ];

    /// <summary>The group of an entry: what the person read on the label, else that of a known active ingredient; null for none.</summary>
    /// <param name="modeGroup">As the label has it, such as "Group 10A"; null when not told.</param>
    /// <param name="active">Active ingredient; null when not told.</param>
    public static string? Of(string? modeGroup, string? active)
        => Plain(modeGroup) ?? (active is null ? null : Known.FirstOrDefault(known => active.Contains(known.Active, StringComparison.OrdinalIgnoreCase)).Group);

    /// <summary>The group of the last miticide; null when there was none or its group is not known.</summary>
    /// <param name="care">Care entries in any order.</param>
    public static string? LastOf(IEnumerable<CareDone> care)
        => care.Where(entry => entry.What == CareKind.Miticide).OrderBy(entry => entry.Day).LastOrDefault() is { } last ? Of(last.ModeGroup, last.Active) : null;

    /// <summary>The group that the last two miticides share; null when they share none. Several entries of one day and group are one use.</summary>
    /// <param name="care">Care entries in any order; of one day, the later entered last.</param>
    public static string? TwiceInARow(IEnumerable<CareDone> care)
    {
        (DateOnly Day, string? Group)[] uses =
            [.. care.Where(entry => entry.What == CareKind.Miticide).OrderBy(entry => entry.Day).Select(entry => (entry.Day, Of(entry.ModeGroup, entry.Active))).Distinct().TakeLast(2)];
        return uses.Length == 2 && uses[0].Group is { } first && IsSame(first, uses[1].Group) ? first : null;
    }

    // "10" and "10A" may be one group: a label that leaves the letter out must not hide it.
    private static bool IsSame(string first, string? second)
        => second is not null && (first == second || (Number(first) == Number(second) && (Number(first) == first || Number(second) == second)));

    private static string Number(string group) => group.TrimEnd([.. "ABCDEFGHIJKLMNOPQRSTUVWXYZ"]);

    private static string? Plain(string? group)
        => group is not null && GroupText().Match(group) is { Success: true } match ? match.Value.ToUpperInvariant() : null;

    [GeneratedRegex("[0-9]{1,2}[A-Za-z]?(?![A-Za-z0-9])", RegexOptions.CultureInvariant)]
    private static partial Regex GroupText();
}
