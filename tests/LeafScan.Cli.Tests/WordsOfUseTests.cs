using System.CommandLine;
using System.Text.RegularExpressions;
using LeafScan.Cli.Screen;
using LeafScan.Cli.Tests.Support;
using LeafScan.Leaves;
using LeafScan.Photos;

namespace LeafScan.Cli.Tests;

public sealed class WordsOfUseTests : IDisposable
{
    private readonly TestDoor _door = new();

    // Taken from the program, so that a new command cannot stay away.
    public static TheoryData<string> Commands()
    {
        using TestDoor door = new();
        return [.. Below(Door.Parse([], door.World(TextWriter.Null, TextWriter.Null)).RootCommandResult.Command, "")];

        static IEnumerable<string> Below(Command command, string path) => command.Subcommands.Where(one => !one.Hidden)
            .SelectMany(one => (one.Action is null ? [] : new[] { path + one.Name }).Concat(Below(one, $"{path}{one.Name} ")));
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Every_command_ends_its_help_with_an_example_that_parses(string command)
    {
        Ran ran = await _door.RunAsync([.. command.Split(' '), "--help"]);
        Assert.Equal(ExitCode.Done, ran.Code);
        string[] examples = [.. ran.Out.Split('\n').SkipWhile(line => !line.StartsWith("Example", StringComparison.Ordinal)).Skip(1).Where(line => line.Length > 0)];
        Assert.NotEmpty(examples);
        foreach (string example in examples.SelectMany(line => line.Split(';')))
        {
            string[] words = CommandLines.Split(example);
            Assert.Equal("leafscan", words[0]);
            ParseResult parsed = Door.Parse(words[1..], _door.World(TextWriter.Null, TextWriter.Null));
            Assert.Empty(parsed.Errors.Select(error => error.Message));
        }
    }

    [Theory]
    [InlineData("PHOTO is missing.", "tap")]
    [InlineData("BLOCK is missing.", "export", "block", "--out", "b.csv")]
    [InlineData("--out is missing.", "card", "B1")]
    [InlineData("The demo keeps a record of its own. Say where with --out, then look at it with --data-dir.", "demo", "--data-dir", "x")]
    public async Task What_is_missing_or_out_of_place_is_told_by_name(string sentence, params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.StartsWith(sentence + "\n", ran.Err.ReplaceLineEndings("\n"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("measure")]
    [InlineData("bogus")]
    [InlineData("measure", "a.jpg", "--kind", "tree")]
    [InlineData("measure", "a.jpg", "--jobs", "0")]
    [InlineData("measure", "a.jpg", "--jobs", "many")]
    [InlineData("measure", "a.jpg", "--json", "-", "--colour")]
    [InlineData("walk", "add", "x")]
    [InlineData("walk", "add", "x", "--place", "P", "--date", "02.07.2026")]
    [InlineData("compare", "--from", "2026-06")]
    [InlineData("compare", "--from", "2026-6", "--to", "2026-07")]
    [InlineData("compare", "--from", "2026-07", "--to", "2026-06")]
    [InlineData("series", "--json", "B1")]
    [InlineData("care", "add", "B1", "--what", "prayer")]
    [InlineData("care", "add", "B1", "--what", "rinse", "--at", "7 pm")]
    [InlineData("plants", "--data-dir", "")]
    [InlineData("plants", "set")]
    [InlineData("plants", "set", "B1", "--calendar", "hot")]
    [InlineData("plants", "set", "B1", "--damage-at-delivery", "120")]
    [InlineData("plants", "leaf", "a.jpg")]
    [InlineData("tap", "add", "B1")]
    [InlineData("tap", "add", "B1", "--mites", "many")]
    [InlineData("tap", "add", "B1", "--mites", "3", "--sheet", "A4")]
    [InlineData("weather", "add", "june.csv")]
    [InlineData("bin", "restore", "plant", "3")]
    [InlineData("export")]
    [InlineData("import", "nowhere.zip")]
    public async Task Wrong_use_is_told_on_standard_error_only(params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.True(ran.Code == ExitCode.WrongUse, ran.ToString());
        Assert.Empty(ran.Out);
        Assert.NotEmpty(ran.Err);
    }

    [Fact]
    public async Task No_word_at_all_says_how_to_begin()
    {
        Ran ran = await _door.RunAsync();
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains("leafscan demo", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_version_is_the_one_stored_with_readings() =>
        Assert.Equal($"leafscan {ToolVersion.Current}\n", (await _door.RunAsync("--version")).Out);

    [Theory]
    [InlineData("README.md")]
    [InlineData("docs/guide.md")]
    public void Every_command_line_in_the_documents_parses(string document)
    {
        string[] lines = [.. CommandLines.InDocument(RepositoryFiles.Find(document))];
        Assert.NotEmpty(lines);
        foreach (string line in lines)
        {
            ParseResult parsed = Door.Parse(CommandLines.Split(line)[1..], _door.World(TextWriter.Null, TextWriter.Null));
            Assert.True(parsed.Errors.Count == 0, $"{line}: {string.Join(' ', parsed.Errors.Select(error => error.Message))}");
        }
    }

    [Fact]
    public void The_format_document_lists_every_flag_with_its_meaning()
    {
        string document = File.ReadAllText(RepositoryFiles.Find("docs/reading-format.md"));
        Assert.All(Flag.All.Values, flag => Assert.Contains($"| `{flag.Name}` | {flag.Meaning} |", document, StringComparison.Ordinal));
    }

    [Fact]
    public void The_format_document_lists_every_schema()
    {
        string document = File.ReadAllText(RepositoryFiles.Find("docs/reading-format.md"));
        string[] sources = Directory.GetFiles(RepositoryFiles.Find("src/LeafScan.Cli"), "*.cs", SearchOption.AllDirectories);
        string[] schemas = [.. sources.SelectMany(file => Regex.Matches(File.ReadAllText(file), "schema = \"([^\"]+)\"").Select(match => match.Groups[1].Value))];
        Assert.NotEmpty(schemas);
        Assert.All(schemas, schema => Assert.Contains($"`{schema}`", document, StringComparison.Ordinal));
    }

    [Fact]
    public void A_table_lines_up_whatever_letters_it_holds()
    {
        TextTable table = new("plant", ">number");
        table.Add("Ros\u0065\u0301", "5");
        table.Add("B1", "1234567");
        using StringWriter writer = new();
        table.WriteTo(writer);
        Assert.Equal("plant   number\nRose\u0301         5\nB1     1234567\n", writer.ToString().ReplaceLineEndings("\n"));
    }

    public void Dispose() => _door.Dispose();
}
