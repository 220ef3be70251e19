using System.Text.Json;
using LeafScan.Cli.Tests.Support;
using LeafScan.Photos;

namespace LeafScan.Cli.Tests;

public sealed class BadInputTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task An_empty_folder_is_nothing_measurable_and_still_one_document()
    {
        Ran ran = await _door.RunAsync("measure", _door.MakeFolder("empty"), "--json", "-");
        Assert.Equal(ExitCode.NothingMeasurable, ran.Code);
        Assert.Equal(0, ran.Json.GetProperty("photos").GetArrayLength());
        Assert.Contains("No photo was found", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_of_text_files_names_each_with_its_reason()
    {
        SomePhoto.Text(_door.At("texts/a.txt"));
        SomePhoto.Text(_door.At("texts/b.jpg"));
        Ran ran = await _door.RunAsync("measure", _door.At("texts"), "--json", "-");
        Assert.Equal(ExitCode.NothingMeasurable, ran.Code);
        Assert.Equal(2, ran.Json.GetProperty("refused").GetArrayLength());
        Assert.Contains("Refused a.txt: ", ran.Err, StringComparison.Ordinal);
        Assert.Contains("Refused b.jpg: ", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_bad_photo_never_stops_a_folder()
    {
        SomePhoto.Text(_door.At("mixed/0.jpg"), string.Empty);
        SomePhoto.Leaf(_door.At("mixed/1.jpg"));
        SomePhoto.CutAtAThird(_door.At("mixed/2.jpg"));
        SomePhoto.Leaf(_door.At("mixed/3.jpg"), 3);
        SomePhoto.Bomb(_door.At("mixed/4.png"));
        SomePhoto.Empty(_door.At("mixed/5.jpg"));
        Ran ran = await _door.RunAsync("measure", _door.At("mixed"), "--json", "-");
        Assert.Equal(ExitCode.SomeRefused, ran.Code);
        string[] measured = [.. ran.Json.GetProperty("photos").EnumerateArray().Select(photo => photo.GetProperty("file").GetString()!)];
        Assert.Contains("1.jpg", measured);
        Assert.Contains("3.jpg", measured);
        string[] refused = [.. ran.Json.GetProperty("refused").EnumerateArray().Select(file => file.GetProperty("file").GetString()!)];
        Assert.Contains("0.jpg", refused);
        Assert.Contains("4.png", refused);
        Assert.Contains("5.jpg", refused);
        Assert.All(ran.Json.GetProperty("refused").EnumerateArray(), file =>
        {
            Assert.NotEmpty(file.GetProperty("reason").GetString()!);
            Assert.NotEmpty(file.GetProperty("advice").GetString()!);
        });
    }

    [Fact]
    public async Task A_photo_cut_at_a_third_is_flagged_or_refused_and_never_passes_for_sound()
    {
        Ran ran = await _door.RunAsync("measure", SomePhoto.CutAtAThird(_door.At("cut.jpg")), "--json", "-");
        AssertDamageIsSaid(ran);
    }

    [Fact]
    public async Task A_photo_of_which_nearly_nothing_is_left_is_refused_for_that_and_not_for_how_the_leaf_lies()
    {
        string path = SomePhoto.Leaf(_door.At("stump.jpg"));
        byte[] whole = File.ReadAllBytes(path);
        File.WriteAllBytes(path, whole[..(whole.Length / 12)]);
        Ran ran = await _door.RunAsync("measure", path, "--json", "-");
        JsonElement refused = Assert.Single(ran.Json.GetProperty("refused").EnumerateArray());
        Assert.Contains("cut off", refused.GetProperty("reason").GetString(), StringComparison.Ordinal);
        Assert.Contains("Copy the photo again", refused.GetProperty("advice").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_photo_with_400_changed_bytes_is_flagged_or_refused()
    {
        Ran ran = await _door.RunAsync("measure", SomePhoto.Flipped(_door.At("flipped.jpg")), "--json", "-");
        AssertDamageIsSaid(ran);
    }

    [Fact]
    public async Task Inks_sixteen_bits_and_grey_are_measured_or_refused_in_words()
    {
        string[] photos = [SomePhoto.Cmyk(_door.At("inks.jpg")), SomePhoto.SixteenBit(_door.At("deep.png")), SomePhoto.Grey(_door.At("grey.jpg"))];
        Ran ran = await _door.RunAsync(["measure", .. photos, "--json", "-"]);
        Assert.True(ran.Code is ExitCode.Done or ExitCode.SomeRefused, ran.ToString());
        Assert.Equal(3, ran.Json.GetProperty("photos").GetArrayLength() + ran.Json.GetProperty("refused").GetArrayLength());
        Assert.DoesNotContain("mistake of its own", ran.Err, StringComparison.Ordinal);
        JsonElement deep = ran.Json.GetProperty("photos").EnumerateArray().Single(photo => photo.GetProperty("file").GetString() == "deep.png");
        Assert.Equal(1, deep.GetProperty("leaves").GetArrayLength());
        foreach (JsonElement grey in ran.Json.GetProperty("photos").EnumerateArray().Where(photo => photo.GetProperty("file").GetString() == "grey.jpg"))
        {
            Assert.Contains(Flag.NoColour.Name, grey.GetProperty("flags").EnumerateArray().Select(flag => flag.GetString()));
        }
    }

    [Theory]
    [InlineData("with blanks and 'quotes' \".jpg")]
    [InlineData("Роза №1 ñandú 茶.jpg")]
    [InlineData("@list.jpg")]
    [InlineData("[bold]x.jpg")]
    public async Task Odd_names_come_out_as_they_went_in(string name)
    {
        SomePhoto.Leaf(_door.At(name));
        Ran ran = await _door.RunAsync("measure", _door.At(name), "--json", "-", "--masks", _door.At("m"));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Equal(name, ran.Json.GetProperty("photos")[0].GetProperty("file").GetString());
        Assert.True(File.Exists(_door.At($"m/{Path.GetFileNameWithoutExtension(name)}.mask.png")));
    }

    [Theory]
    [InlineData("MM takes a number such as 12.5, not \"abc\".", "print", "measured", "abc")]
    [InlineData("--seconds takes a number such as 12.5, not \"ten\".", "tap", "a.jpg", "b.jpg", "--seconds", "ten")]
    [InlineData("--port takes a whole number, not \"abc\".", "serve", "--port", "abc")]
    [InlineData("--mites takes a whole number, not \"2.5\".", "tap", "a.jpg", "b.jpg", "--plant", "B1", "--mites", "2.5")]
    public async Task A_word_where_a_number_belongs_is_told_in_plain_words(string sentence, params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains(sentence, ran.Err, StringComparison.Ordinal);
        Assert.DoesNotContain("System.", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_name_that_begins_with_a_dash_follows_two_dashes()
    {
        string here = Environment.CurrentDirectory;
        SomePhoto.Leaf(_door.At("-x.jpg"));
        Ran ran = await _door.RunAsync("measure", "--json", "-", "--", Path.GetRelativePath(here, _door.At("-x.jpg")));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    [Fact]
    public async Task Control_characters_in_a_name_do_not_reach_the_screen()
    {
        string name = "a\u001b[2Jb\nc.jpg";
        SomePhoto.Text(_door.At(name), string.Empty);
        Ran ran = await _door.RunAsync("measure", _door.At(name));
        Assert.DoesNotContain('\u001b', ran.Err);
        Assert.Contains("Refused a?[2Jb?c.jpg: ", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_missing_file_beside_a_good_one_costs_only_itself()
    {
        Ran ran = await _door.RunAsync("measure", _door.At("gone.jpg"), SomePhoto.Leaf(_door.At("rose.jpg")), "--json", "-");
        Assert.Equal(ExitCode.SomeRefused, ran.Code);
        Assert.Equal(1, ran.Json.GetProperty("photos").GetArrayLength());
    }

    [Fact]
    public async Task A_masks_folder_that_cannot_be_made_is_said_before_anything_is_measured()
    {
        SomePhoto.Text(_door.At("m"));
        Ran ran = await _door.RunAsync("measure", SomePhoto.Leaf(_door.At("rose.jpg")), "--masks", _door.At("m"));
        Assert.Equal(ExitCode.StoreTrouble, ran.Code);
        Assert.Contains("Nothing was measured", ran.Err, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
    }

    [Fact]
    public async Task A_full_disk_under_the_document_is_disk_trouble()
    {
        // /dev/full answers every write with "no space left" (Linux, full(4)).
        Assert.True(File.Exists("/dev/full"));
        Ran ran = await _door.RunAsync("measure", SomePhoto.Leaf(_door.At("rose.jpg")), "--json", "/dev/full");
        Assert.True(ran.Code == ExitCode.StoreTrouble, ran.ToString());
        Assert.Contains("Could not write /dev/full", ran.Err, StringComparison.Ordinal);
        Assert.True(File.Exists("/dev/full"));
    }

    private static void AssertDamageIsSaid(Ran ran)
    {
        if (ran.Code == ExitCode.NothingMeasurable)
        {
            Assert.Equal(1, ran.Json.GetProperty("refused").GetArrayLength());
            return;
        }

        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Contains(Flag.DamagedFile.Name, ran.Json.GetProperty("photos")[0].GetProperty("flags").EnumerateArray().Select(flag => flag.GetString()));
    }

    public void Dispose() => _door.Dispose();
}
