using System.Text.Json;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

/// <summary>What a person tells the record by hand, and takes back.</summary>
public sealed class RecordByHandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task What_is_set_on_a_plant_is_listed_and_undone()
    {
        await AddWalk();
        Ran set = await _door.RunAsync("plants", "set", "b1", "--species", "Buxus", "--block", "South bed", "--row", "3", "--check", "yes", "--calendar", "boxwood", "--damage-at-delivery", "12.5", "--client", "Miller", "--json");
        Assert.True(set.Code == ExitCode.Done, set.ToString());
        JsonElement plant = set.Json.GetProperty("plant");
        Assert.Equal(("South bed", "boxwood", 0.125, true), (plant.GetProperty("block").GetString(), plant.GetProperty("calendar").GetString(), plant.GetProperty("damageAtDelivery").GetDouble(), plant.GetProperty("isCheck").GetBoolean()));

        await _door.RunAsync("plants", "set", "B1", "--row", "", "--name", "hedge");
        Assert.Equal(JsonValueKind.Null, (await Listed()).GetProperty("row").ValueKind);
        Ran undone = await _door.RunAsync("undo");
        Assert.Contains("row is “3” again, not empty", undone.Out, StringComparison.Ordinal);
        Assert.Equal("3", (await Listed()).GetProperty("row").GetString());
    }

    [Fact]
    public async Task A_tap_without_mites_is_kept_and_stands_in_the_series()
    {
        await AddWalk();
        Ran kept = await _door.RunAsync("tap", "add", "B1", "--mites", "0", "--strikes", "5", "--predators", "1", "--hours-since-rinse", "48", "--sheet", "210x297", "--date", "2026-06-20", "--note", "south side");
        Assert.True(kept.Code == ExitCode.Done, kept.ToString());
        Assert.StartsWith("Kept: 0 live mites from 5 strikes, 1 predator on B1 in Garden, 2026-06-20.\n", kept.Out, StringComparison.Ordinal);
        Assert.Matches("2026-06-20 +tap, 0 mites from 5 strikes, 1 predator: south side", (await _door.RunAsync("series", "B1")).Out);
        JsonElement tap = (await _door.RunAsync("series", "B1", "--json")).Json.GetProperty("taps")[0];
        Assert.Equal((0, 48), (tap.GetProperty("mites").GetInt32(), tap.GetProperty("hoursSinceRinse").GetInt32()));

        await _door.RunAsync("bin", "add", "tap", "1");
        Assert.Empty((await _door.RunAsync("series", "B1", "--json")).Json.GetProperty("taps").EnumerateArray());
        Assert.Matches("tap +1 +tap, 0 mites +B1", (await _door.RunAsync("bin")).Out);
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("bin", "restore", "tap", "1")).Code);
        Assert.Equal(ExitCode.WrongUse, (await _door.RunAsync("bin", "restore", "tap", "1")).Code);
    }

    [Fact]
    public async Task A_care_entry_is_put_right_and_undone()
    {
        await AddWalk();
        await _door.RunAsync("care", "add", "B1", "--what", "soap", "--date", "2026-06-20", "--note", "undersides", "--at", "07:05", "--active", "salts of fatty acids");
        Ran set = await _door.RunAsync("care", "set", "1", "--what", "oil", "--date", "2026-06-19", "--note", "", "--reason", "read the bottle again");
        Assert.True(set.Code == ExitCode.Done, set.ToString());
        Assert.Equal("Changed: entry 1 is now oil of B1 in Garden on 2026-06-19.\nTo take it back: leafscan undo\n", set.Out);
        JsonElement entry = (await _door.RunAsync("series", "B1", "--json")).Json.GetProperty("care")[0];
        Assert.Equal(("oil", "2026-06-19", JsonValueKind.Null), (entry.GetProperty("what").GetString(), entry.GetProperty("date").GetString(), entry.GetProperty("note").ValueKind));

        Assert.Contains("what was done is “soap” again, not “oil”", (await _door.RunAsync("undo")).Out, StringComparison.Ordinal);
        Assert.Equal("undersides", (await _door.RunAsync("series", "B1", "--json")).Json.GetProperty("care")[0].GetProperty("note").GetString());
    }

    [Fact]
    public async Task A_tap_is_put_right_and_undone_and_never_loses_its_count()
    {
        await AddWalk();
        await _door.RunAsync("tap", "add", "B1", "--mites", "4", "--predators", "0", "--date", "2026-06-20");
        Ran set = await _door.RunAsync("tap", "set", "1", "--mites", "14", "--strikes", "5", "--clear", "predators");
        Assert.True(set.Code == ExitCode.Done, set.ToString());
        Assert.StartsWith("Kept: 14 live mites from 5 strikes on B1 in Garden, 2026-06-20.\n", set.Out, StringComparison.Ordinal);
        Ran none = await _door.RunAsync("tap", "set", "1", "--clear", "mites");
        Assert.Equal(ExitCode.WrongUse, none.Code);
        Assert.Contains("A tap needs a count of mites", none.Err, StringComparison.Ordinal);
        Assert.Contains("mites under the lens is “4” again, not “14”", (await _door.RunAsync("undo")).Out, StringComparison.Ordinal);
        JsonElement tap = (await _door.RunAsync("series", "B1", "--json")).Json.GetProperty("taps")[0];
        Assert.Equal((4, 0), (tap.GetProperty("mites").GetInt32(), tap.GetProperty("predators").GetInt32()));
    }

    [Theory]
    [InlineData("There is no care entry 7 outside the bin", "care", "set", "7", "--note", "x")]
    [InlineData("There is no tap 7 outside the bin", "tap", "set", "7", "--mites", "3")]
    [InlineData("--at takes a time such as 19:30", "care", "set", "1", "--at", "25:00")]
    [InlineData("lies in the future", "care", "set", "1", "--date", "2099-01-01")]
    [InlineData("--clear takes mites, by-photo", "tap", "set", "1", "--clear", "everything")]
    public async Task What_cannot_be_put_right_is_told_in_a_sentence(string says, params string[] words)
    {
        await AddWalk();
        await _door.RunAsync("care", "add", "B1", "--what", "rinse", "--date", "2026-06-20");
        Ran ran = await _door.RunAsync(words);
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains(says, ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_photo_is_given_to_another_plant_and_back()
    {
        await AddWalk();
        Ran moved = await _door.RunAsync("photos", "assign", "leaf.jpg", "B2", "--plant", "B1");
        Assert.True(moved.Code == ExitCode.Done, moved.ToString());
        JsonElement photo = (await _door.RunAsync("photos", "--plant", "b2", "--json")).Json.GetProperty("photos")[0];
        Assert.Equal("byHand", photo.GetProperty("plantBy").GetString());
        await _door.RunAsync("undo");
        Assert.Empty((await _door.RunAsync("photos", "--plant", "B2", "--json")).Json.GetProperty("photos").EnumerateArray());
        Ran removed = await _door.RunAsync("photos", "remove", "leaf.jpg");
        Assert.Equal(ExitCode.Done, removed.Code);
        Assert.Equal("No such photo is on record.\n", (await _door.RunAsync("photos", "--plant", "B1")).Out);
    }

    [Fact]
    public async Task Leaf_words_of_folders_come_on_record_and_can_be_corrected()
    {
        SomePhoto.Leaf(_door.At("june/B1/tagged-3/one.jpg"), 1);
        SomePhoto.Leaf(_door.At("june/B1/two_new-growth.jpg"), 2);
        await _door.RunAsync("walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18");
        string photos = (await _door.RunAsync("photos")).Out;
        Assert.Matches("one.jpg .* B1 .*tagged 3", photos);
        Assert.Matches("two_new-growth.jpg .* B1 .*new growth", photos);
        await _door.RunAsync("plants", "leaf", "one.jpg", "--age", "old");
        Assert.Matches("one.jpg .* old growth, tagged 3", (await _door.RunAsync("photos")).Out);
    }

    [Fact]
    public async Task Weather_is_added_once_and_differences_are_named()
    {
        await AddWalk();
        string file = SomePhoto.Text(_door.At("june.csv"), "date,min,max\n2026-06-01,10,25\n2026-06-02,12,30.5\n2026-06-02,12,30.5\n");
        Ran added = await _door.RunAsync("weather", "add", file, "--place", "garden");
        Assert.True(added.Code == ExitCode.Done, added.ToString());
        Assert.Contains("2 days added", added.Out, StringComparison.Ordinal);
        Assert.Contains("0 days added, 2 already here", (await _door.RunAsync("weather", "add", file, "--place", "Garden")).Out, StringComparison.Ordinal);

        // 50 °F is 10 °C and 77 °F is 25 °C by the definition of the scale.
        string american = SomePhoto.Text(_door.At("f.csv"), "Date;Max;Min\n2026-06-01;77;50\n2026-06-02;90;50\n");
        Ran again = await _door.RunAsync("weather", "add", american, "--place", "Garden", "--unit", "F");
        Assert.Contains("0 days added, 1 already here, 1 with other figures", again.Out, StringComparison.Ordinal);
        Assert.Contains("2026-06-02 is on record with other figures", again.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Weather_is_listed_with_its_degree_days_corrected_and_put_back()
    {
        await AddWalk();
        Assert.Contains("Garden: no weather on record", (await _door.RunAsync("weather")).Out, StringComparison.Ordinal);

        // Between the thresholds a day is worth its mean less the base: 20 - 10 on each of ten days (single sine, as in DegreeDayTests).
        string days = string.Join('\n', Enumerable.Range(1, 10).Select(day => $"2026-06-{day:00},15,25"));
        string file = SomePhoto.Text(_door.At("june.csv"), "date,min,max\n" + days + "\n");
        await _door.RunAsync("weather", "add", file, "--place", "Garden");
        Assert.Contains("cannot say", (await _door.RunAsync("weather")).Out, StringComparison.Ordinal);
        Assert.Equal(100, await Sum());

        string other = SomePhoto.Text(_door.At("other.csv"), "date,min,max\n2026-06-03,31,41\n");
        Ran left = await _door.RunAsync("weather", "add", other, "--place", "Garden");
        Assert.Contains("--replace", left.Err, StringComparison.Ordinal);
        Assert.Equal(100, await Sum());
        Ran replaced = await _door.RunAsync("weather", "add", other, "--place", "Garden", "--replace");
        Assert.True(replaced.Code == ExitCode.Done, replaced.ToString());
        Assert.Contains("2026-06-03 was 15.0 to 25.0 °C", replaced.Err, StringComparison.Ordinal);
        Assert.Equal(116, await Sum());
        Assert.Contains("highest of 2026-06-03 is “25” again, not “41”", (await _door.RunAsync("undo")).Out, StringComparison.Ordinal);
        Assert.Equal(100, await Sum());

        async Task<double> Sum() => Math.Round((await _door.RunAsync("weather", "--place", "garden", "--from", "2026-06-01", "--json")).Json.GetProperty("places")[0].GetProperty("degreeDaysC").GetDouble(), 6);
    }

    [Theory]
    [InlineData("care", "add", "B1", "--what", "rinse", "--date", "2091-05-01")]
    [InlineData("care", "add", "B1", "--what", "rinse", "--date", "0001-01-01")]
    [InlineData("tap", "add", "B1", "--mites", "3", "--date", "2091-05-01")]
    public async Task What_was_done_in_the_future_or_long_ago_is_refused(params string[] words)
    {
        await AddWalk();
        Ran ran = await _door.RunAsync(words);
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains("Nothing was kept", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_plant_without_a_photo_can_be_begun_tapped_and_asked_about()
    {
        Ran begun = await _door.RunAsync("plants", "add", "N1", "--place", "Garden");
        Assert.True(begun.Code == ExitCode.Done, begun.ToString());
        Assert.StartsWith("Begun: N1 in Garden.", begun.Out, StringComparison.Ordinal);
        Assert.StartsWith("It is on record: N1", (await _door.RunAsync("plants", "add", "n1", "--place", "garden")).Out, StringComparison.Ordinal);
        await _door.RunAsync("tap", "add", "N1", "--mites", "3", "--date", "2026-06-20");
        await _door.RunAsync("care", "add", "N1", "--what", "rinse", "--date", "2026-06-21");
        foreach (string[] words in (string[][])[["series", "N1"], ["verdict", "N1"], ["next", "N1", "--date", "2026-06-25"], ["series", "--place", "Garden"], ["plants"]])
        {
            Ran ran = await _door.RunAsync(words);
            Assert.True(ran.Code == ExitCode.Done, ran.ToString());
            Assert.Contains(words[0] == "series" && words.Length == 3 ? "Garden" : "N1", ran.Out, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task An_entry_made_by_mistake_is_taken_back()
    {
        await AddWalk();
        await _door.RunAsync("care", "add", "B1", "--what", "rinse", "--date", "2026-06-20");
        await _door.RunAsync("tap", "add", "B1", "--mites", "3", "--date", "2026-06-20");
        await _door.RunAsync("undo");
        JsonElement series = (await _door.RunAsync("series", "B1", "--json")).Json;
        Assert.Equal((0, 1), (series.GetProperty("taps").GetArrayLength(), series.GetProperty("care").GetArrayLength()));
        await _door.RunAsync("undo");
        Assert.Equal(0, (await _door.RunAsync("series", "B1", "--json")).Json.GetProperty("care").GetArrayLength());
    }

    [Theory]
    [InlineData("")]
    [InlineData("day,temp\n2026-06-01,10\n")]
    [InlineData("date,min,max\n01.06.2026,10,20\n")]
    [InlineData("date,min,max\n2026-06-01,20,10\n")]
    [InlineData("date,min,max\n2026-06-01,68,95\n")]
    [InlineData("date,min,max\n2026-06-01,ten,20\n")]
    [InlineData("date,min,max\n2026-06-01,10,20\n2026-06-01,11,20\n")]
    [InlineData("date,min,max\n2026-06-01,10\n")]
    public void Weather_that_makes_no_sense_is_refused_whole(string text)
        => Assert.Contains("Nothing was added", Assert.Throws<RecordException>(() => WeatherTable.Read(new StringReader(text), "june.csv", false)).Message, StringComparison.Ordinal);

    [Fact]
    public async Task The_whole_record_goes_out_and_into_another_folder()
    {
        await AddWalk();
        Ran exported = await _door.RunAsync("export", "--out", _door.At("record.zip"), "--json");
        Assert.True(exported.Code == ExitCode.Done, exported.ToString());
        Ran imported = await _door.RunAsync("import", _door.At("record.zip"), "--data-dir", _door.At("other"), "--json");
        Assert.True(imported.Code == ExitCode.Done, imported.ToString());
        Assert.Equal(exported.Json.GetProperty("contentSha256").GetString(), imported.Json.GetProperty("contentSha256").GetString());
        Assert.Equal((await _door.RunAsync("plants")).Out, (await _door.RunAsync("plants", "--data-dir", _door.At("other"))).Out);
        Assert.Equal(ExitCode.WrongUse, (await _door.RunAsync("import", _door.At("record.zip"))).Code);
    }

    [Fact]
    public async Task A_backup_is_restored_and_what_was_there_is_kept()
    {
        await AddWalk();
        await _door.RunAsync("backup", _door.At("saved.db"));
        await _door.RunAsync("plants", "set", "B1", "--name", "hedge");
        Ran restored = await _door.RunAsync("restore", _door.At("saved.db"));
        Assert.True(restored.Code == ExitCode.Done, restored.ToString());
        Assert.Contains("before-restore-", restored.Out, StringComparison.Ordinal);
        Assert.Equal(JsonValueKind.Null, (await Listed()).GetProperty("name").ValueKind);
        Assert.Equal(ExitCode.WrongUse, (await _door.RunAsync("restore", _door.At("nowhere.db"))).Code);
    }

    private async Task<JsonElement> Listed() => (await _door.RunAsync("plants", "--json")).Json.GetProperty("plants")[0];

    private async Task AddWalk()
    {
        SomePhoto.Leaf(_door.At("june/B1/leaf.jpg"), 1);
        Ran ran = await _door.RunAsync("walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    public void Dispose() => _door.Dispose();
}
