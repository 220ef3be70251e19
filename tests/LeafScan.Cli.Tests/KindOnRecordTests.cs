using LeafScan.Cli.Tests.Support;

namespace LeafScan.Cli.Tests;

/// <summary>Leaves, twigs and whole plants are never put together without a word.</summary>
public sealed class KindOnRecordTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task A_plant_with_leaves_and_twigs_has_two_series_and_kind_tells_which()
    {
        await Add("a", "B1", "leaf");
        await Add("b", "B1", "twig");
        Ran own = await _door.RunAsync("series", "B1", "--json");
        Assert.Equal("leaf", own.Json.GetProperty("kind").GetString());
        Assert.Equal(1, own.Json.GetProperty("walks").GetArrayLength());
        Ran twigs = await _door.RunAsync("series", "B1", "--kind", "twig", "--json");
        Assert.Equal("twig", twigs.Json.GetProperty("kind").GetString());
        Assert.Equal(1, twigs.Json.GetProperty("walks").GetArrayLength());
        Assert.Contains("Means over twigs", (await _door.RunAsync("series", "B1", "--kind", "twig")).Out, StringComparison.Ordinal);
        Assert.Equal(0, (await _door.RunAsync("series", "B1", "--kind", "plant", "--json")).Json.GetProperty("walks").GetArrayLength());
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("verdict", "B1", "--kind", "twig")).Code);
        Assert.Equal(ExitCode.WrongUse, (await _door.RunAsync("series", "B1", "--kind", "hedge")).Code);
    }

    [Theory]
    [InlineData("series", "B1")]
    [InlineData("series", "--place", "Garden")]
    [InlineData("verdict", "B1")]
    [InlineData("compare", "--from", "2026-05", "--to", "2026-06")]
    public async Task A_kind_that_is_not_on_record_is_said(params string[] words)
    {
        await Add("a", "B1", "leaf");
        Assert.Contains("No whole plants are on record here.", (await _door.RunAsync([.. words, "--kind", "plant"])).Err, StringComparison.Ordinal);
        Assert.DoesNotContain("on record here", (await _door.RunAsync([.. words, "--kind", "leaf"])).Err, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("twig", "of the foliage shows damage", "1\u00A0twig")]
    [InlineData("leaf", "of the leaf area shows damage", "1\u00A0leaf")]
    public async Task A_note_speaks_of_what_was_measured(string kind, string share, string count)
    {
        await Add("a", "B1", kind);
        string file = _door.At("note.md");
        Ran ran = await _door.RunAsync("note", "B1", "--out", file);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        string note = await File.ReadAllTextAsync(file);
        Assert.Contains(share, note, StringComparison.Ordinal);
        Assert.Contains(count, note, StringComparison.Ordinal);
        Assert.Equal(kind == "leaf", note.Contains("photos of single leaves", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_note_is_of_one_kind_and_says_what_to_do_in_its_words()
    {
        await Add("a", "B1", "leaf");
        await Add("b", "B1", "twig");
        Assert.Contains("1\u00A0leaf", await Note("B1"), StringComparison.Ordinal);
        string twigs = await Note("B1", "--kind", "twig");
        Assert.Contains("1\u00A0twig", twigs, StringComparison.Ordinal);
        Assert.Contains("the same twigs", twigs, StringComparison.Ordinal);
        Assert.DoesNotContain("the same leaves", twigs, StringComparison.Ordinal);
        Assert.Contains("twigs with 5 % or more", (await _door.RunAsync("series", "B1", "--kind", "twig")).Out, StringComparison.Ordinal);
        Ran none = await _door.RunAsync("note", "B1", "--kind", "plant", "--no-picture", "--out", _door.At("none.md"));
        Assert.Contains("No whole plants are on record here.", none.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_note_on_a_place_says_that_its_plants_were_measured_in_different_ways()
    {
        await Add("a", "B1", "leaf");
        await Add("b", "C1", "twig");
        Assert.Contains("do not compare with each other", await Note("--place", "Garden"), StringComparison.Ordinal);
        Assert.DoesNotContain("do not compare with each other", await Note("--place", "Garden", "--kind", "twig"), StringComparison.Ordinal);
    }

    private async Task<string> Note(params string[] words)
    {
        string file = _door.At("note.md");
        Ran ran = await _door.RunAsync(["note", .. words, "--no-picture", "--out", file]);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        return await File.ReadAllTextAsync(file);
    }

    [Fact]
    public async Task Means_over_plants_of_different_kinds_say_so()
    {
        await Add("a", "B1", "leaf");
        await Add("b", "C1", "twig");
        Ran mixed = await _door.RunAsync("series", "--place", "Garden");
        Assert.Contains("leaves of 1 plant and twigs of 1 plant together", mixed.Out, StringComparison.Ordinal);
        Ran one = await _door.RunAsync("series", "--place", "Garden", "--kind", "twig");
        Assert.DoesNotContain("together", one.Out, StringComparison.Ordinal);
        Ran compared = await _door.RunAsync("compare", "--from", "2026-05", "--to", "2026-06", "--kind", "leaf", "--json");
        Assert.Equal(["leaf"], compared.Json.GetProperty("kinds").EnumerateArray().Select(kind => kind.GetString()));
    }

    private async Task Add(string folder, string plant, string kind)
    {
        SomePhoto.Leaf(_door.At($"{folder}/{plant}/1.jpg"), folder[0]);
        Ran ran = await _door.RunAsync("walk", "add", _door.At(folder), "--place", "Garden", "--date", "2026-06-18", "--kind", kind);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    public void Dispose() => _door.Dispose();
}
