using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

public sealed class PrintCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-print-").FullName;

    public void Dispose()
    {
        _door.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Theory]
    [InlineData("a4", "sheet.pdf", "%PDF")]
    [InlineData("letter", "sheet.PDF", "%PDF")]
    public async Task A_scale_sheet_is_written_for_either_paper(string paper, string name, string begins)
    {
        string file = Path.Combine(_folder, name);
        Ran ran = await _door.RunAsync("print", "scale-sheet", "--paper", paper, "--out", file);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.StartsWith(begins, File.ReadAllText(file), StringComparison.Ordinal);
        Assert.Contains("2 pages", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_svg_needs_to_know_the_side_and_nothing_is_written_without()
    {
        string file = Path.Combine(_folder, "sheet.svg");
        Ran refused = await _door.RunAsync("print", "scale-sheet", "--out", file);
        Assert.Equal(ExitCode.WrongUse, refused.Code);
        Assert.Contains("--side", refused.Err, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_folder));
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("print", "scale-sheet", "--side", "tap", "--out", file)).Code);
        Assert.Contains("<svg", File.ReadAllText(file), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("print", "scale-sheet", "--out", "sheet.docx")]
    [InlineData("print", "scale-sheet", "--paper", "a3", "--out", "sheet.pdf")]
    [InlineData("print", "scale-sheet", "--side", "back", "--out", "sheet.pdf")]
    [InlineData("print", "tags", "--out", "tags.pdf")]
    [InlineData("print", "tags", "--plants", "--out", "tags.pdf")]
    [InlineData("print", "tags", "--all", "--plants", "B03", "--out", "tags.pdf")]
    [InlineData("print", "tags", "--plants", "=nameless", "--out", "tags.pdf")]
    [InlineData("print", "tags", "--plants", "A\u202EB", "--out", "tags.pdf")]
    [InlineData("print", "tags", "--plants", "B03", "--place", "Hill nursery", "--out", "tags.pdf")]
    [InlineData("print", "tags", "--plants", "B03", "--out", "tags.txt")]
    [InlineData("print", "measured", "50")]
    [InlineData("print", "measured", "NaN")]
    [InlineData("print", "measured", "a hand")]
    public async Task Wrong_words_are_told_and_nothing_is_written(params string[] words)
    {
        string[] placed = [.. words.Select(word => word.EndsWith(".pdf", StringComparison.Ordinal) ? Path.Combine(_folder, word) : word)];
        Ran ran = await _door.RunAsync(placed);
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.NotEmpty(ran.Err);
        Assert.Empty(Directory.GetFiles(_folder));
        Assert.False(File.Exists(Path.Combine(_door.DataFolder, Settings.FileName)));
    }

    [Fact]
    public async Task Tags_are_written_and_a_name_that_cannot_be_set_is_named()
    {
        string file = Path.Combine(_folder, "tags.pdf");
        Ran ran = await _door.RunAsync("print", "tags", "--plants", "B03", "K12=Burning bush", "Z9=ורד", "--out", file);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.True(new FileInfo(file).Length > 2000);
        Assert.Contains("Z9", ran.Err, StringComparison.Ordinal);
        Assert.DoesNotContain("K12", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Tags_of_one_page_can_be_an_svg_and_those_of_two_cannot()
    {
        string file = Path.Combine(_folder, "tags.svg");
        string[] many = [.. Enumerable.Range(1, 25).Select(i => $"P{i}")];
        Ran refused = await _door.RunAsync(["print", "tags", "--plants", .. many, "--out", file]);
        Assert.Equal(ExitCode.WrongUse, refused.Code);
        Assert.Contains("2", refused.Err, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_folder));
        Assert.Equal(ExitCode.Done, (await _door.RunAsync(["print", "tags", "--plants", .. many[..24], "--out", file])).Code);
        Assert.Contains("P24", File.ReadAllText(file), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_code_that_cannot_be_set_is_printed_as_a_square_and_named()
    {
        Ran ran = await _door.RunAsync("print", "tags", "--plants", "שלום", "--out", Path.Combine(_folder, "tags.pdf"));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Contains("by hand", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_older_file_is_replaced_whole_and_no_part_is_left()
    {
        string file = Path.Combine(_folder, "sheet.pdf");
        File.WriteAllText(file, "old");
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("print", "scale-sheet", "--out", file)).Code);
        Assert.StartsWith("%PDF", File.ReadAllText(file), StringComparison.Ordinal);
        Assert.Equal([file], Directory.GetFiles(_folder));
    }

    [Fact]
    public async Task A_place_that_cannot_be_written_is_told()
    {
        string file = Path.Combine(_folder, "taken");
        File.WriteAllText(file, "a file where a folder should be");
        Ran ran = await _door.RunAsync("print", "scale-sheet", "--out", Path.Combine(file, "sheet.pdf"));
        Assert.Equal(ExitCode.StoreTrouble, ran.Code);
        Assert.NotEmpty(ran.Err);
    }

    [Fact]
    public async Task One_code_on_record_that_is_too_long_does_not_stop_the_others()
    {
        using (RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System))
        {
            long place = store.FindOrAddPlace("Hill nursery").Id;
            store.FindOrAddPlant(place, "B03");
            store.FindOrAddPlant(place, new string('w', 80));
        }

        string file = Path.Combine(_folder, "tags.pdf");
        Ran ran = await _door.RunAsync("print", "tags", "--all", "--out", file);
        Assert.Equal(ExitCode.SomeRefused, ran.Code);
        Assert.Contains("too long", ran.Err, StringComparison.Ordinal);
        Assert.Contains("tags: 1", ran.Out, StringComparison.Ordinal);
        Assert.True(File.Exists(file));
    }

    [Fact]
    public async Task A_code_that_is_too_long_is_refused_in_one_sentence()
    {
        Ran ran = await _door.RunAsync("print", "tags", "--plants", new string('A', 400), "--out", Path.Combine(_folder, "tags.pdf"));
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains("too long", ran.Err, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_folder));
    }

    [Fact]
    public async Task What_the_printer_made_of_the_bar_is_kept_and_can_be_taken_back()
    {
        Assert.Contains("counts as 100", (await _door.RunAsync("print", "measured")).Out, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("print", "measured", "98.5")).Code);
        Assert.Equal(0.985, Settings.Load(_door.DataFolder).PrintedScale.Factor, 1e-9);
        Assert.Contains("98.5 mm", (await _door.RunAsync("print", "measured")).Out, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("print", "measured", "100")).Code);
        Assert.Equal(1, Settings.Load(_door.DataFolder).PrintedScale.Factor);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("{\"schema\":\"something else\"}")]
    [InlineData("{\"schema\":\"leafscan.settings/1\",\"printedBarMm\":4}")]
    public async Task Settings_that_are_damaged_are_named_and_left_alone(string content)
    {
        Directory.CreateDirectory(_door.DataFolder);
        string file = Path.Combine(_door.DataFolder, Settings.FileName);
        File.WriteAllText(file, content);
        Ran ran = await _door.RunAsync("print", "measured");
        Assert.Equal(ExitCode.StoreTrouble, ran.Code);
        Assert.Contains(Settings.FileName, ran.Err, StringComparison.Ordinal);
        Assert.Equal(content, File.ReadAllText(file));
    }
}
