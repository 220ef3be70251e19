using System.CommandLine;
using LeafScan.Training.Commands;
using LeafScan.Training.Rendering;

namespace LeafScan.Training.Tests;

public class KeptAsideTests
{
    private static readonly string[] Kinds = ["", "plants", "twigs", "taps"];

    [Theory]
    [InlineData(899_990, 10, false)]
    [InlineData(899_990, 11, true)]
    [InlineData(950_000, 1, true)]
    [InlineData(999_999, 1, true)]
    [InlineData(1_000_000, 100_000, false)]
    [InlineData(899_999, 100_002, true)]
    [InlineData(1, 2_000_000, true)]
    public void A_run_touches_what_is_kept_aside_wherever_in_it_those_seeds_lie(int first, int count, bool touches)
        => Assert.Equal(touches, KeptAside.Touches(first, count));

    [Fact]
    public void Every_kind_of_render_refuses_runs_into_the_seeds_that_are_kept_aside()
    {
        foreach (string kind in Kinds)
        {
            Assert.Contains("kept aside", Told(kind, "--seed", "850000", "--scenes", "60000"), StringComparison.Ordinal);
            Assert.Contains("kept aside", Told(kind, "--seed", "900000", "--scenes", "100000"), StringComparison.Ordinal);
            Assert.Equal("", Told(kind, "--seed", "900000", "--scenes", "10", "--kept-aside"));
            Assert.Equal("", Told(kind, "--seed", "1", "--scenes", "10"));
        }
    }

    [Fact]
    public void A_run_around_all_seeds_that_are_kept_aside_is_refused()
    {
        // 899999 and 1000000 may be used; what lies between may not.
        foreach (string kind in Kinds)
        {
            string told = Told(kind, "--seed", "899999", "--scenes", "100002");
            Assert.Contains("kept aside", told, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Seeds_beyond_the_largest_number_and_words_for_numbers_are_refused_in_words()
    {
        Assert.Contains("seeds end at", Told("", "--seed", "2147483647", "--scenes", "2"), StringComparison.Ordinal);
        Assert.Contains("abc", Told("", "--seed", "abc"), StringComparison.Ordinal);
        Assert.Contains("--out FOLDER", string.Join(" ", TrainingCommand.Build().Parse(["render", "--scenes", "1"]).Errors.Select(e => e.Message)), StringComparison.Ordinal);
    }

    private static string Told(string kind, params string[] rest)
    {
        string[] words = ["render", .. kind.Length > 0 ? (string[])[kind] : [], .. rest, "--out", "nowhere"];
        ParseResult parsed = TrainingCommand.Build().Parse(words);
        return string.Join(" ", parsed.Errors.Select(error => error.Message));
    }
}
