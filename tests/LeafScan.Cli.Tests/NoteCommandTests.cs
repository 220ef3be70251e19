using System.Text.Json;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

public sealed class NoteCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task A_note_lays_the_last_walk_beside_the_one_before_and_says_that_the_photo_is_gone()
    {
        Begin();
        Ran ran = await _door.RunAsync("note", "EU-1", "--out", _door.At("note.md"));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        string note = (await File.ReadAllTextAsync(_door.At("note.md"))).Replace('\u00A0', ' ');
        Assert.Contains("**12 % of the leaf area shows damage**", note, StringComparison.Ordinal);
        Assert.Contains("3 June 2026: 4 %", note, StringComparison.Ordinal);
        Ran document = await _door.RunAsync("note", "EU-1", "--out", _door.At("note.json"));
        Assert.Equal(ExitCode.Done, document.Code);
        JsonElement json = JsonDocument.Parse(await File.ReadAllTextAsync(_door.At("note.json"))).RootElement;
        Assert.Contains("are no longer at hand", json.GetProperty("caption").GetString(), StringComparison.Ordinal);
        Assert.Equal(("leafscan.note/1", 0.12, 0.04), (json.GetProperty("schema").GetString(), json.GetProperty("now").GetProperty("damage").GetDouble(), json.GetProperty("before").GetProperty("damage").GetDouble()));
    }

    [Fact]
    public async Task Own_words_and_sender_go_into_the_note_and_undo_takes_the_words_back()
    {
        Begin();
        await _door.RunAsync("note", "sender", "--by", "Jo Brandt", "--country", "US");
        await _door.RunAsync("note", "text", "EU-1", "--part", "greeting", "--say", "Dear Ms Lund,");
        await _door.RunAsync("note", "text", "EU-1", "--part", "next", "--say", "I come again on Friday.", "--walk", "2026-07-02");
        string note = await Write();
        Assert.Contains("Dear Ms Lund,", note, StringComparison.Ordinal);
        Assert.Contains("I come again on Friday.", note, StringComparison.Ordinal);
        Assert.Contains("June 3, 2026", note, StringComparison.Ordinal);
        Assert.Contains("Jo Brandt", note, StringComparison.Ordinal);
        await _door.RunAsync("undo");
        Assert.DoesNotContain("Friday", await Write(), StringComparison.Ordinal);
        await _door.RunAsync("note", "text", "EU-1", "--part", "greeting", "--say", "");
        Assert.DoesNotContain("Lund", await Write(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_text_for_another_walk_stays_off_this_note()
    {
        Begin();
        await _door.RunAsync("note", "text", "EU-1", "--part", "seen", "--say", "Only in June.", "--walk", "2026-06-03");
        Assert.DoesNotContain("Only in June.", await Write(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("note", "NOPE", "--out", "n.pdf")]
    [InlineData("note", "EU-1", "--out", "n.txt")]
    [InlineData("note", "EU-1", "--out", "n.pdf", "--since", "2099-01-01")]
    [InlineData("note", "text", "EU-1", "--part", "weather", "--say", "x")]
    [InlineData("note", "sender", "--client", "Nobody", "--country", "US")]
    public async Task Wrong_use_is_told_and_writes_nothing(params string[] words)
    {
        Begin();
        Ran ran = await _door.RunAsync(words);
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Empty(ran.Out);
        Assert.False(File.Exists("n.pdf") || File.Exists("n.txt"));
    }

    public void Dispose() => _door.Dispose();

    private async Task<string> Write()
    {
        await _door.RunAsync("note", "EU-1", "--out", _door.At("note.md"), "--no-picture");
        return await File.ReadAllTextAsync(_door.At("note.md"));
    }

    private void Begin()
    {
        using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
        SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 6, 3), 0.04);
        SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 7, 2), 0.12);
    }
}
