using System.Text.Json;
using LeafScan.Cli.Tests.Support;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
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
        Photo(store, new DateOnly(2026, 6, 3), 'a', 0.04);
        Photo(store, new DateOnly(2026, 7, 2), 'b', 0.12);
    }

    private static void Photo(RecordStore store, DateOnly day, char mark, double damage)
    {
        string sha = new(mark, 64);
        LeafReading leaf = new()
        {
            Outline = [new(10, 10), new(90, 10), new(90, 90), new(10, 90)],
            AreaPx = 6400,
            Shares = new LeafShares(1 - damage, damage, 0, 0, 0, 0),
            Damage = damage,
            DamageLow = damage - 0.01,
            DamageHigh = damage + 0.01,
            SpeckCount = 3,
            SpeckDiameterMedianPx = 4,
            SpeckCentres = [new(20, 20, 4)],
            Causes = [new("miteStippling", 0.9, ["3 pale specks"])],
            Flags = [],
        };
        store.RecordPhoto(new NewPhoto
        {
            WalkId = store.FindOrAddWalk(store.FindOrAddPlace("Hill nursery").Id, day).Id,
            Facts = new PhotoFacts { FileName = mark + ".jpg", Path = $"/nowhere/{mark}.jpg", Sha256 = sha, ByteLength = 9, Format = PhotoFormat.Jpeg, WidthPx = 100, HeightPx = 100 },
            Reading = new PhotoReading { File = mark + ".jpg", Sha256 = sha, Width = 100, Height = 100, Kind = "leaf", Flags = [], Leaves = [leaf] },
            Origin = new ReadingOrigin("0.0.1", "0123456789abcdef"),
            Plant = PlantGuess.ByHand("EU-1"),
        });
    }
}
