using System.Text.Json;
using System.Xml.Linq;
using LeafScan.Records;
using LeafScan.Web.Tests.Support;

namespace LeafScan.Web.Tests;

/// <summary>What each address of the interface answers, over a record with invented figures.</summary>
public sealed class ContractTests
{
    [Fact]
    public async Task The_state_of_an_empty_record_says_so()
    {
        await using TestPage page = new();
        JsonElement state = await page.GetAsync("/api/state");
        Assert.Equal(0, state.GetProperty("photos").GetInt64());
        Assert.Equal(0, state.GetProperty("places").GetArrayLength());
        Assert.Equal("2026-08-04", state.GetProperty("today").GetString());
        Assert.Equal(0, state.GetProperty("waiting").GetInt32());
    }

    [Fact]
    public async Task Plants_come_with_their_last_walk_and_verdict_and_can_be_narrowed_to_a_block()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        JsonElement[] plants = [.. (await page.GetAsync("/api/plants")).EnumerateArray()];
        Assert.Equal(["EU-1", "EU-2"], plants.Select(plant => plant.GetProperty("code").GetString()));
        Assert.Equal(0.16, plants[0].GetProperty("damage").GetDouble(), 3);
        Assert.True(plants[0].GetProperty("damageLow").GetDouble() < 0.16);
        Assert.Equal("2026-07-10", plants[0].GetProperty("lastWalk").GetString());
        Assert.Contains(plants[0].GetProperty("verdict").GetString(), new[] { "working", "notWorking", "tooEarly", "cannotTell", "newDamage", "noNewDamage" });
        Assert.Equal(1, (await page.GetAsync("/api/plants?block=South")).GetArrayLength());
        Assert.Equal(0, (await page.GetAsync("/api/plants?place=Elsewhere")).GetArrayLength());
    }

    [Fact]
    public async Task Gaps_worst_side_and_specks_per_cm_stand_in_the_series_of_whole_plants_and_twigs_and_nowhere_else()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        Some.Photo(page.Store, "Hill nursery", new DateOnly(2026, 6, 10), "S1", "s1.jpg", "plant", [Some.WholePlant(0.1, "left")]);
        Some.Photo(page.Store, "Hill nursery", new DateOnly(2026, 6, 10), "S1", "s2.jpg", "plant", [Some.WholePlant(0.2, "none")]);
        Some.Photo(page.Store, "Hill nursery", new DateOnly(2026, 6, 10), "J1", "j1.jpg", "twig", [Some.Leaf(0.1) with { NeedleLengthMm = 20, SpecksPerCmOfNeedle = 1.5 }]);
        JsonElement plant = await WalkOf("S1"), twig = await WalkOf("J1"), leaf = await WalkOf("EU-1");
        JsonElement crown = plant.GetProperty("crown");
        Assert.Equal((2, 0.15, 0.075, 0.3), (crown.GetProperty("views").GetInt32(), crown.GetProperty("thinning").GetDouble(), crown.GetProperty("thinningLow").GetDouble(), crown.GetProperty("thinningHigh").GetDouble()));
        Assert.Equal("left 1 of 2", crown.GetProperty("worstSide").GetString());
        Assert.Equal(1.5, twig.GetProperty("specksPerCmOfNeedle").GetDouble());
        Assert.Equal(
            [JsonValueKind.Null, JsonValueKind.Null, JsonValueKind.Null, JsonValueKind.Null],
            [plant.GetProperty("specksPerCmOfNeedle").ValueKind, twig.GetProperty("crown").ValueKind, leaf.GetProperty("crown").ValueKind, leaf.GetProperty("specksPerCmOfNeedle").ValueKind]);

        async Task<JsonElement> WalkOf(string code) => (await page.GetAsync($"/api/plants/{page.Store.FindPlants(code)[0].Id}")).GetProperty("series")[0];
    }

    [Fact]
    public async Task Lists_say_the_verdict_that_the_plant_says_also_after_a_change()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        List<string> words = [await WordAsync()];
        for (int week = 0; week < 6; week++)
        {
            Some.Photo(page.Store, "Hill nursery", new DateOnly(2026, 6, 24).AddDays(7 * week), "EU-2", $"w{week}.jpg", [.. Enumerable.Range(0, 6).Select(leaf => 0.1 + (0.05 * week) + (0.01 * leaf))]);
            words.Add(await WordAsync());
        }

        using HttpResponseMessage tap = await page.SendAsync(HttpMethod.Post, "/api/plants/2/taps", new { mites = 40, date = "2026-06-30" });
        using HttpResponseMessage care = await page.SendAsync(HttpMethod.Post, "/api/plants/2/care", new { what = "rinse", date = "2026-07-01" });
        words.Add(await WordAsync());
        await page.DoAsync(HttpMethod.Post, "/api/undo");
        words.Add(await WordAsync());
        Assert.True(words.Distinct().Count() > 1, string.Join(", ", words));
        using HttpResponseMessage ahead = await page.SendAsync(HttpMethod.Post, "/api/plants/2/care", new { what = "rinse", date = "2031-07-01" });
        await TestPage.ProblemOf(ahead, 422);

        async Task<string> WordAsync()
        {
            JsonElement plant = await page.GetAsync("/api/plants/2"), verdict = plant.GetProperty("verdict");
            JsonElement next = (await page.GetAsync("/api/next")).EnumerateArray().Single(line => line.GetProperty("code").GetString() == "EU-2");
            string word = (await page.GetAsync("/api/plants")).EnumerateArray().Single(line => line.GetProperty("code").GetString() == "EU-2").GetProperty("verdict").GetString()!;
            Assert.Equal(verdict.GetProperty("word").GetString(), word);
            Assert.Equal(plant.GetProperty("series").EnumerateArray().Last().GetProperty("damage").GetDouble(), next.GetProperty("damage").GetDouble(), 5);
            Assert.NotEmpty(next.GetProperty("steps")[0].GetProperty("words").GetString()!);
            return word;
        }
    }

    [Fact]
    public async Task A_plant_comes_with_series_care_taps_photos_and_the_verdict_first()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        JsonElement plant = await page.GetAsync("/api/plants/1");
        Assert.Equal(2, plant.GetProperty("series").GetArrayLength());
        Assert.Equal("2026-06-10", plant.GetProperty("series")[0].GetProperty("date").GetString());
        Assert.Equal(0.06, plant.GetProperty("series")[0].GetProperty("damage").GetDouble(), 6);
        Assert.Equal("rinse", plant.GetProperty("care")[0].GetProperty("what").GetString());
        Assert.Equal(12, plant.GetProperty("taps")[0].GetProperty("mites").GetInt32());
        Assert.False(plant.GetProperty("photos")[0].GetProperty("hasOverlay").GetBoolean());
        Assert.Equal("good", plant.GetProperty("photos")[0].GetProperty("word").GetString());
        Assert.NotEmpty(plant.GetProperty("verdict").GetProperty("because").EnumerateArray());
        Assert.NotEmpty(plant.GetProperty("verdict").GetProperty("next").GetString()!);
    }

    [Fact]
    public async Task A_plant_of_five_visits_has_a_direction_and_beside_an_untreated_one_what_was_taken_of_the_mites()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        JsonElement early = await page.GetAsync("/api/plants/1");
        Assert.Equal((JsonValueKind.Null, JsonValueKind.Null), (early.GetProperty("trend").ValueKind, early.GetProperty("verdict").GetProperty("mitesTaken").ValueKind));

        foreach ((int day, double damage) in new[] { (17, 0.07), (24, 0.09), (30, 0.12) })
        {
            Some.Photo(page.Store, "Hill nursery", new DateOnly(2026, 6, day), "EU-1", $"d{day}.jpg", damage, damage + 0.01);
        }

        long other = page.Store.FindPlants("EU-2")[0].Id;
        page.Store.EditPlant(other, old => old with { Species = "Euonymus alatus", Facts = old.Facts with { IsCheck = true } }, "test");
        page.Store.AddTap(new NewTap { PlantId = 1, Day = new DateOnly(2026, 7, 4), MitesByLens = 2, Strikes = 3 });
        page.Store.AddTap(new NewTap { PlantId = other, Day = new DateOnly(2026, 6, 20), MitesByLens = 12, Strikes = 3 });
        page.Store.AddTap(new NewTap { PlantId = other, Day = new DateOnly(2026, 7, 4), MitesByLens = 20, Strikes = 3 });
        JsonElement plant = await page.GetAsync("/api/plants/1"), trend = plant.GetProperty("trend"), taken = plant.GetProperty("verdict").GetProperty("mitesTaken");
        Assert.Equal((5, "rising", true), (trend.GetProperty("visits").GetInt32(), trend.GetProperty("direction").GetString(), trend.GetProperty("exact").GetBoolean()));
        Assert.Equal(2.0 / 120, trend.GetProperty("chance").GetDouble(), 6);
        Assert.StartsWith("Over 5 visits from 2026-06-10 to 2026-07-10 damage rose", trend.GetProperty("words").GetString(), StringComparison.Ordinal);
        Assert.Equal((0.9, 0.9), (taken.GetProperty("byHendersonTilton").GetDouble(), taken.GetProperty("byAbbott").GetDouble()));
        Assert.Contains("Abbott applies too", taken.GetProperty("because").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_not_on_record_is_a_problem_in_words()
    {
        await using TestPage page = new();
        foreach (string address in new[] { "/api/plants/9", "/api/walks/9", "/api/photos/9", "/api/photos/9/picture", "/api/photos/9/overlay", "/api/plants/9/chart.svg", "/api/nothing", "/api/taps/overlay/x/y" })
        {
            using HttpResponseMessage answer = await page.SendAsync(HttpMethod.Get, address);
            await TestPage.ProblemOf(answer, 404);
        }
    }

    [Fact]
    public async Task A_plant_is_begun_changed_and_changed_back()
    {
        await using TestPage page = new();
        using HttpResponseMessage begun = await page.SendAsync(HttpMethod.Post, "/api/plants", new { code = "BX-7", place = "Hill", name = "Box by the gate", isCheck = true });
        Assert.Equal(201, (int)begun.StatusCode);
        JsonElement plant = await TestPage.JsonOf(begun);
        long id = plant.GetProperty("id").GetInt64();
        Assert.True(plant.GetProperty("isCheck").GetBoolean());
        JsonElement changed = await page.DoAsync(HttpMethod.Put, $"/api/plants/{id}", new { row = "3", calendar = "boxwood" });
        Assert.Equal("Box by the gate", changed.GetProperty("name").GetString());
        Assert.Equal("boxwood", changed.GetProperty("calendar").GetString());
        await page.DoAsync(HttpMethod.Put, $"/api/plants/{id}", new { name = "" });
        Assert.Equal(JsonValueKind.Null, (await page.GetAsync($"/api/plants/{id}")).GetProperty("name").ValueKind);
        Assert.Contains("Box by the gate", (await page.DoAsync(HttpMethod.Post, "/api/undo")).GetProperty("undone").GetString(), StringComparison.Ordinal);
        Assert.Equal("Box by the gate", (await page.GetAsync($"/api/plants/{id}")).GetProperty("name").GetString());
        using HttpResponseMessage wrong = await page.SendAsync(HttpMethod.Put, $"/api/plants/{id}", new { damageAtDelivery = 3 });
        await TestPage.ProblemOf(wrong, 422);
    }

    [Fact]
    public async Task Care_and_taps_are_put_right_whole_and_undone()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        JsonElement care = await page.DoAsync(HttpMethod.Post, "/api/plants/1/care", new { what = "soap", note = "evening", at = "19:30", active = "salts of fatty acids", date = "2026-08-01" });
        string path = $"/api/care/{care.GetProperty("id").GetInt64()}";
        JsonElement now = await page.DoAsync(HttpMethod.Put, path, new { what = "oil", note = "", at = "07:05" });
        Assert.Equal(("oil", "2026-08-01", "07:05"), (now.GetProperty("what").GetString(), now.GetProperty("date").GetString(), now.GetProperty("at").GetString()));
        Assert.Equal((JsonValueKind.Null, JsonValueKind.Null), (now.GetProperty("note").ValueKind, now.GetProperty("active").ValueKind));
        await page.DoAsync(HttpMethod.Post, "/api/undo");
        Assert.Equal(("evening", "salts of fatty acids"), (page.Store.FindCare(care.GetProperty("id").GetInt64())!.Note, page.Store.FindCare(care.GetProperty("id").GetInt64())!.Details.Active));

        JsonElement tap = await page.DoAsync(HttpMethod.Post, "/api/plants/1/taps", new { mites = 3, strikes = 3, predators = 1, date = "2026-08-01" });
        string tapPath = $"/api/taps/{tap.GetProperty("id").GetInt64()}";
        JsonElement more = await page.DoAsync(HttpMethod.Put, tapPath, new { mites = 13, strikes = 5, note = "new glasses" });
        Assert.Equal((13, 5, JsonValueKind.Null, "2026-08-01"), (more.GetProperty("mites").GetInt32(), more.GetProperty("strikes").GetInt32(), more.GetProperty("predators").ValueKind, more.GetProperty("date").GetString()));
        using (HttpResponseMessage none = await page.SendAsync(HttpMethod.Put, tapPath, new { strikes = 5 }))
        {
            await TestPage.ProblemOf(none, 422);
        }

        using (HttpResponseMessage ahead = await page.SendAsync(HttpMethod.Put, path, new { what = "oil", date = "2031-01-01" }))
        {
            await TestPage.ProblemOf(ahead, 422);
        }

        await page.DoAsync(HttpMethod.Post, "/api/undo");
        Assert.Equal((3, 1), (page.Store.FindTap(tap.GetProperty("id").GetInt64())!.LiveMites, page.Store.FindTap(tap.GetProperty("id").GetInt64())!.Tap.Predators));
        using HttpResponseMessage gone = await page.SendAsync(HttpMethod.Put, "/api/taps/999", new { mites = 1 });
        await TestPage.ProblemOf(gone, 404);
        using HttpResponseMessage goneToo = await page.SendAsync(HttpMethod.Put, "/api/care/999", new { what = "oil" });
        await TestPage.ProblemOf(goneToo, 404);
    }

    [Fact]
    public async Task A_plant_says_what_its_readings_are_of()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        Assert.Equal("leaf", (await page.GetAsync("/api/plants/1")).GetProperty("kind").GetString());
        long bare = page.Store.FindOrAddPlant(page.Store.Plants()[0].PlaceId, "NEW-1").Id;
        Assert.Equal(JsonValueKind.Null, (await page.GetAsync($"/api/plants/{bare}")).GetProperty("kind").ValueKind);
    }

    [Fact]
    public async Task Care_and_taps_are_kept_with_todays_day_unless_another_is_given_and_go_to_the_bin()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        JsonElement care = await page.DoAsync(HttpMethod.Post, "/api/plants/1/care", new { what = "oil", note = "evening", at = "19:30", active = "paraffinic oil" });
        Assert.Equal("2026-08-04", care.GetProperty("date").GetString());
        Assert.Equal("19:30", care.GetProperty("at").GetString());
        JsonElement tap = await page.DoAsync(HttpMethod.Post, "/api/plants/1/taps", new { mites = 0, strikes = 3, date = "2026-08-01", hoursSinceRinse = 48 });
        Assert.Equal("2026-08-01", tap.GetProperty("date").GetString());
        Assert.Equal(2, page.Store.TapsOfPlant(1).Count);
        using (HttpResponseMessage gone = await page.SendAsync(HttpMethod.Delete, $"/api/care/{care.GetProperty("id").GetInt64()}"))
        {
            Assert.Equal(204, (int)gone.StatusCode);
        }

        Assert.Single(page.Store.CareOfPlant(1));
        await page.DoAsync(HttpMethod.Post, "/api/undo");
        Assert.Equal(2, page.Store.CareOfPlant(1).Count);

        // Undo goes on backwards: the tap that was added, then the care.
        await page.DoAsync(HttpMethod.Post, "/api/undo");
        Assert.Single(page.Store.TapsOfPlant(1));
        await page.DoAsync(HttpMethod.Post, "/api/undo");
        Assert.Single(page.Store.CareOfPlant(1));
        using HttpResponseMessage unknown = await page.SendAsync(HttpMethod.Post, "/api/plants/1/care", new { what = "prayer" });
        await TestPage.ProblemOf(unknown, 422);
        using HttpResponseMessage empty = await page.SendAsync(HttpMethod.Post, "/api/plants/1/taps", new { strikes = 3 });
        await TestPage.ProblemOf(empty, 422);
        using HttpResponseMessage nonsense = await page.SendAsync(HttpMethod.Post, "/api/plants/1/taps", new { mites = "many" });
        await TestPage.ProblemOf(nonsense, 400);
    }

    [Fact]
    public async Task Months_blocks_and_next_steps_speak_of_the_same_plants()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        JsonElement[] months = [.. (await page.GetAsync("/api/compare?from=2026-06&to=2026-07")).EnumerateArray()];
        Assert.Equal("worse", months[0].GetProperty("word").GetString());
        Assert.Equal(0.1, months[0].GetProperty("difference").GetDouble(), 6);
        Assert.Equal("cannotTell", months[1].GetProperty("word").GetString());
        using (HttpResponseMessage turned = await page.SendAsync(HttpMethod.Get, "/api/compare?from=2026-07&to=2026-06"))
        {
            await TestPage.ProblemOf(turned, 422);
        }

        JsonElement[] blocks = [.. (await page.GetAsync("/api/blocks")).EnumerateArray()];
        Assert.Equal("South", blocks[0].GetProperty("block").GetString());
        Assert.Equal("EU-1", blocks[0].GetProperty("plants")[0].GetProperty("code").GetString());
        Assert.Equal("10", blocks[0].GetProperty("positions")[0].GetString());
    }

    [Fact]
    public async Task Settings_keep_what_is_left_out_and_clear_what_is_empty()
    {
        await using TestPage page = new();
        await page.DoAsync(HttpMethod.Put, "/api/settings", new { printedBarMm = 98.5, who = "Ann", units = "in" });
        JsonElement settings = await page.DoAsync(HttpMethod.Put, "/api/settings", new { who = "" });
        Assert.Equal(98.5, settings.GetProperty("printedBarMm").GetDouble());
        Assert.Equal(JsonValueKind.Null, settings.GetProperty("who").ValueKind);
        Assert.Equal(98.5, Settings.Load(page.Folder).PrintedBarMm);
        using HttpResponseMessage wrong = await page.SendAsync(HttpMethod.Put, "/api/settings", new { printedBarMm = 50 });
        await TestPage.ProblemOf(wrong, 422);
    }

    [Fact]
    public async Task A_backup_is_a_file_that_holds_the_record()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        string file = (await page.DoAsync(HttpMethod.Post, "/api/backup")).GetProperty("file").GetString()!;
        Assert.Equal(page.Store.Backups(), [file]);
    }

    [Fact]
    public async Task Walks_are_found_or_begun_and_an_impossible_day_is_refused()
    {
        await using TestPage page = new();
        long first = (await page.DoAsync(HttpMethod.Post, "/api/walks", new { place = "Hill" })).GetProperty("id").GetInt64();
        Assert.Equal(first, (await page.DoAsync(HttpMethod.Post, "/api/walks", new { place = "hill", date = "2026-08-04" })).GetProperty("id").GetInt64());
        Assert.Equal("Hill", (await page.GetAsync($"/api/walks/{first}")).GetProperty("place").GetString());
        Assert.Equal(1, (await page.GetAsync("/api/walks")).GetArrayLength());
        using HttpResponseMessage future = await page.SendAsync(HttpMethod.Post, "/api/walks", new { place = "Hill", date = "2027-01-01" });
        await TestPage.ProblemOf(future, 422);
        using HttpResponseMessage nowhere = await page.SendAsync(HttpMethod.Post, "/api/walks", new { date = "2026-08-01" });
        await TestPage.ProblemOf(nowhere, 422);
    }

    [Fact]
    public async Task A_photo_moves_to_another_plant_of_its_place_only()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        long photo = page.Store.Photos()[0].Id;
        JsonElement moved = await page.DoAsync(HttpMethod.Put, $"/api/photos/{photo}/plant", new { plantId = page.Store.FindPlants("EU-2")[0].Id });
        Assert.Equal("EU-2", moved.GetProperty("plantCode").GetString());
        Assert.Equal("byHand", moved.GetProperty("plantBy").GetString());
        long foreign = page.Store.FindOrAddPlant(page.Store.FindOrAddPlace("Elsewhere").Id, "X1").Id;
        using HttpResponseMessage wrong = await page.SendAsync(HttpMethod.Put, $"/api/photos/{photo}/plant", new { plantId = foreign });
        await TestPage.ProblemOf(wrong, 422);
        JsonElement none = await page.DoAsync(HttpMethod.Put, $"/api/photos/{photo}/plant", new { plantId = (long?)null });
        Assert.Equal("unknown", none.GetProperty("plantBy").GetString());
        JsonElement noted = await page.DoAsync(HttpMethod.Put, $"/api/photos/{photo}/leaf", new { age = "new", label = "3" });
        Assert.Equal("new", noted.GetProperty("leafAge").GetString());
    }

    [Fact]
    public async Task A_photo_whose_file_has_gone_still_shows_its_numbers_and_says_where_it_was()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        JsonElement photo = await page.GetAsync("/api/photos/1");
        Assert.Equal(6, photo.GetProperty("leaves").GetArrayLength());
        Assert.Equal(JsonValueKind.Null, photo.GetProperty("previousId").ValueKind);
        Assert.Equal(3, photo.GetProperty("nextId").GetInt64());
        Assert.Equal("miteStippling", photo.GetProperty("leaves")[0].GetProperty("causes")[0].GetProperty("cause").GetString());
        using HttpResponseMessage picture = await page.SendAsync(HttpMethod.Get, "/api/photos/1/picture");
        Assert.Contains("/nowhere/a.jpg", await TestPage.ProblemOf(picture, 404), StringComparison.Ordinal);
        using HttpResponseMessage correction = await page.SendAsync(HttpMethod.Post, "/api/photos/1/leaves/0/correction", new { what = "notALeaf" });
        await TestPage.ProblemOf(correction, 404);
        Assert.Empty(page.Store.CorrectionsOf(1));
    }

    [Fact]
    public async Task The_chart_is_sound_xml_with_a_title_a_description_and_the_care_at_its_foot()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        string svg = await page.Client.GetStringAsync(new Uri("/api/plants/1/chart.svg", UriKind.Relative));
        XElement drawing = XElement.Parse(svg);
        XNamespace ns = "http://www.w3.org/2000/svg";
        Assert.Contains("EU-1", drawing.Element(ns + "title")!.Value, StringComparison.Ordinal);
        Assert.Contains("20 June 2026", drawing.Element(ns + "desc")!.Value, StringComparison.Ordinal);
        Assert.Equal(2, drawing.Elements(ns + "circle").Count());
        Assert.DoesNotContain("style", svg, StringComparison.Ordinal);
        page.Store.FindOrAddPlant(1, "empty");
        using HttpResponseMessage nothing = await page.SendAsync(HttpMethod.Get, $"/api/plants/{page.Store.FindPlants("empty")[0].Id}/chart.svg");
        await TestPage.ProblemOf(nothing, 404);
    }

    [Fact]
    public async Task A_page_is_sent_once_and_then_only_when_it_changed()
    {
        await using TestPage page = new();
        using HttpResponseMessage first = await page.SendAsync(HttpMethod.Get, "/");
        Assert.Equal("text/html", first.Content.Headers.ContentType?.MediaType);
        using HttpResponseMessage again = await page.SendAsync(HttpMethod.Get, "/", null, ("If-None-Match", first.Headers.ETag!.Tag));
        Assert.Equal(304, (int)again.StatusCode);
        using HttpResponseMessage inner = await page.SendAsync(HttpMethod.Get, "/plant/12");
        Assert.Equal(200, (int)inner.StatusCode);
        using HttpResponseMessage none = await page.SendAsync(HttpMethod.Get, "/no-such-page");
        await TestPage.ProblemOf(none, 404);
    }
}
