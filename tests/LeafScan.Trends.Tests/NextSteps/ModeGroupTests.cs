using LeafScan.Records;
using LeafScan.Trends.NextSteps;

namespace LeafScan.Trends.Tests.NextSteps;

public sealed class ModeGroupTests
{
    private static readonly DateOnly Day = new(2026, 6, 1);

    // Groups by IRAC as Rutgers and Cloyd 2021 give them; bifenazate 20D is from memory.
    [Theory]
    [InlineData("10A", null, "10A")]
    [InlineData("Group 10a", null, "10A")]
    [InlineData("IRAC 6", "hexythiazox", "6")]
    [InlineData(null, "Hexythiazox 5.45 %", "10A")]
    [InlineData(null, "abamectin", "6")]
    [InlineData(null, "etoxazole", "10B")]
    [InlineData(null, "rosemary oil", null)]
    [InlineData("none", null, null)]
    [InlineData(null, null, null)]
    public void The_label_goes_before_what_is_known_of_the_active(string? group, string? active, string? expected) => Assert.Equal(expected, ModeGroups.Of(group, active));

    [Theory]
    [InlineData("10A", "10A", "10A")]
    [InlineData("10", "10A", "10")]
    [InlineData("10A", "10B", null)]
    [InlineData("10A", "6", null)]
    [InlineData("10A", null, null)]
    public void The_same_group_twice_in_a_row_is_seen(string first, string? second, string? expected)
        => Assert.Equal(expected, ModeGroups.TwiceInARow([Miticide(0, first), Rinse(3), Miticide(14, second)]));

    [Fact]
    public void Another_group_between_and_two_entries_of_one_day_are_no_repeat()
    {
        Assert.Null(ModeGroups.TwiceInARow([Miticide(0, "10A"), Miticide(14, "6"), Miticide(28, "10A")]));
        Assert.Null(ModeGroups.TwiceInARow([Miticide(0, "10A"), Miticide(0, "10A")]));
        Assert.Equal("6", ModeGroups.LastOf([Miticide(14, "6"), Miticide(0, "10A")]));
    }

    private static CareDone Miticide(int day, string? group) => new(Day.AddDays(day), CareKind.Miticide) { ModeGroup = group };

    private static CareDone Rinse(int day) => new(Day.AddDays(day), CareKind.Rinse);
}
