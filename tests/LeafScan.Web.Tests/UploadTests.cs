using System.Net;
using System.Text;
using System.Text.Json;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;
using LeafScan.Web.Tests.Support;

namespace LeafScan.Web.Tests;

/// <summary>Photos on their way from the page into the record, measured for real.</summary>
public sealed class UploadTests
{
    [Fact]
    public async Task A_photo_is_received_measured_told_and_named_when_it_comes_again()
    {
        await using TestPage page = new();
        byte[] photo = Some.LeafPhoto();
        long walk = await BeginAsync(page);
        using HttpResponseMessage before = await page.SendAsync(HttpMethod.Head, $"/api/walks/{walk}/photos/{Some.Sha(photo)}");
        Assert.Equal(HttpStatusCode.NotFound, before.StatusCode);
        using HttpResponseMessage sent = await page.PutPhotoAsync(walk, photo, "name=IMG_7.jpg&folder=EU-1");
        Assert.Equal(HttpStatusCode.Accepted, sent.StatusCode);
        using HttpResponseMessage twice = await page.PutPhotoAsync(walk, photo, "name=copy.jpg");
        Assert.Equal(HttpStatusCode.OK, twice.StatusCode);
        await page.UntilMeasuredAsync();

        JsonElement line = (await page.GetAsync($"/api/walks/{walk}")).GetProperty("photos")[0];
        Assert.Equal("IMG_7.jpg", line.GetProperty("file").GetString());
        Assert.Equal("EU-1", line.GetProperty("plantCode").GetString());
        Assert.Equal("byFolder", line.GetProperty("plantBy").GetString());
        Assert.True(line.GetProperty("hasOverlay").GetBoolean());
        using HttpResponseMessage after = await page.SendAsync(HttpMethod.Head, $"/api/walks/{walk}/photos/{Some.Sha(photo)}");
        Assert.Equal(HttpStatusCode.OK, after.StatusCode);
        using HttpResponseMessage again = await page.PutPhotoAsync(walk, photo, "name=copy.jpg");
        JsonElement known = await TestPage.JsonOf(again);
        Assert.Equal("alreadyHere", known.GetProperty("state").GetString());
        Assert.Equal("IMG_7.jpg", known.GetProperty("sameAs").GetString());
        Assert.Single(page.Store.Photos());

        string kept = page.Store.Photos()[0].PathSeen;
        Assert.Equal(photo, await File.ReadAllBytesAsync(kept));
        Assert.Equal(Path.Combine(page.Folder, "photos", "2026-08-04", Some.Sha(photo) + ".jpg"), kept);

        // The same as the command measures: one way of measuring behind both doors.
        JsonElement leaf = (await page.GetAsync("/api/photos/1")).GetProperty("leaves")[0];
        Assert.InRange(leaf.GetProperty("damage").GetDouble(), leaf.GetProperty("damageLow").GetDouble(), leaf.GetProperty("damageHigh").GetDouble());
        await PicturesCarryNothingHiddenAsync(page);
    }

    [Fact]
    public async Task A_photo_follows_the_tag_that_was_sent_before_it_unless_a_plant_was_chosen()
    {
        await using TestPage page = new();
        long walk = await BeginAsync(page);
        DateTime nine = new(2026, 8, 4, 9, 0, 0);
        byte[] Taken(string path, int minute) => File.ReadAllBytes(SomePhoto.TakenAt(path, nine.AddMinutes(minute)));
        string At(string name) => Path.Combine(page.Folder, "made", name);
        await page.PutPhotoAsync(walk, Taken(SomePhoto.Leaf(At("a.jpg"), 1), 0), "name=IMG_1.jpg");
        await page.PutPhotoAsync(walk, Taken(SomePhoto.Tag(At("b.jpg"), "B07"), 1), "name=IMG_2.jpg");
        await page.PutPhotoAsync(walk, Taken(SomePhoto.Leaf(At("c.jpg"), 2), 2), "name=IMG_3.jpg");
        long other = page.Store.FindOrAddPlant(page.Store.Places()[0].Id, "B09").Id;
        await page.PutPhotoAsync(walk, Taken(SomePhoto.Leaf(At("d.jpg"), 3), 3), $"name=IMG_4.jpg&plantId={other}");
        await page.UntilMeasuredAsync();
        Assert.Equal(
            [("IMG_1.jpg", "leaf", null, "unknown"), ("IMG_2.jpg", "tag", "B07", "byTag"), ("IMG_3.jpg", "leaf", "B07", "byTag"), ("IMG_4.jpg", "leaf", "B09", "byHand")],
            page.Store.Photos(walk).OrderBy(photo => photo.FileName, StringComparer.Ordinal).Select(photo => (photo.FileName, photo.Kind, photo.PlantCode, photo.PlantBy)));
    }

    [Fact]
    public async Task A_tag_that_is_sent_after_its_leaves_reaches_back_to_them_but_not_over_a_hand_or_the_next_tag()
    {
        await using TestPage page = new();
        long walk = await BeginAsync(page);
        DateTime nine = new(2026, 8, 4, 9, 0, 0);
        byte[] Taken(string path, int minute) => File.ReadAllBytes(SomePhoto.TakenAt(path, nine.AddMinutes(minute)));
        string At(string name) => Path.Combine(page.Folder, "made", name);
        Task<HttpResponseMessage> SendAsync(byte[] bytes, int number) => page.PutPhotoAsync(walk, bytes, $"name=IMG_{number}.jpg");
        await SendAsync(Taken(SomePhoto.Leaf(At("a.jpg"), 1), 2), 2);
        await SendAsync(Taken(SomePhoto.Leaf(At("b.jpg"), 2), 3), 3);
        await SendAsync(Taken(SomePhoto.Leaf(At("c.jpg"), 3), 6), 6);
        await page.UntilMeasuredAsync();
        long byHand = page.Store.Photos(walk).Single(photo => photo.FileName == "IMG_3.jpg").Id;
        page.Store.MovePhoto(byHand, "B09", "said on the page");
        await SendAsync(Taken(SomePhoto.Tag(At("d.jpg"), "B08"), 5), 5);
        await SendAsync(Taken(SomePhoto.Tag(At("e.jpg"), "B07"), 1), 1);
        await page.UntilMeasuredAsync();
        Assert.Equal(["B07 byTag", "B07 byTag", "B09 byHand", "B08 byTag", "B08 byTag"], Plants(page, walk));

        JsonElement[] moved = [.. (await page.GetAsync($"/api/walks/{walk}")).GetProperty("movedByTag").EnumerateArray()];
        Assert.Equal(["IMG_2.jpg", "IMG_6.jpg"], moved.Select(move => move.GetProperty("file").GetString()));
        Assert.Equal("It was taken at 09:02:00, after the tag of “B07” (IMG_1.jpg at 09:01:00).", moved[0].GetProperty("because").GetString());

        // Taken back, the older of the two, and no tag moves it again.
        await page.DoAsync(HttpMethod.Post, $"/api/undo?change={moved[1].GetProperty("changeId").GetInt64()}");
        Assert.Equal(["B07 byTag", "B07 byTag", "B09 byHand", "B08 byTag", " unknown"], Plants(page, walk));
        await SendAsync(Taken(SomePhoto.Tag(At("f.jpg"), "B10"), 5), 7);
        await page.UntilMeasuredAsync();
        Assert.Equal(" unknown", Plants(page, walk)[4]);
        Assert.Equal(1, (await page.GetAsync($"/api/walks/{walk}")).GetProperty("movedByTag").EnumerateArray().Count(move => move.GetProperty("takenBack").GetBoolean()));
    }

    private static string[] Plants(TestPage page, long walk)
        => [.. page.Store.Photos(walk).OrderBy(photo => photo.FileName, StringComparer.Ordinal).Select(photo => $"{photo.PlantCode} {photo.PlantBy}")];

    [Fact]
    public async Task What_a_person_says_of_a_leaf_is_kept_measured_at_once_and_taken_back_by_undo()
    {
        await using TestPage page = new();
        long walk = await BeginAsync(page);
        await page.PutPhotoAsync(walk, Some.LeafPhoto(), "name=IMG_7.jpg&folder=EU-1");
        await page.UntilMeasuredAsync();
        JsonElement leaf = (await page.GetAsync("/api/photos/1")).GetProperty("leaves")[0];
        double damage = leaf.GetProperty("damage").GetDouble();
        int[][] outline = [.. leaf.GetProperty("outline").EnumerateArray().Select(corner => corner.EnumerateArray().Select(number => number.GetInt32()).ToArray())];
        (double x, double y) = (outline.Average(corner => corner[0]), outline.Average(corner => corner[1]));
        int[][] smaller = [.. outline.Select(corner => new[] { (int)(x + ((corner[0] - x) * 0.85)), (int)(y + ((corner[1] - y) * 0.85)) })];

        JsonElement drawn = await page.DoAsync(HttpMethod.Post, "/api/photos/1/leaves/0/correction", new { what = "outline", outline = smaller, who = "Ann" });
        Assert.Equal("outline", drawn.GetProperty("leaves")[0].GetProperty("corrected").GetString());
        int[][] now = [.. drawn.GetProperty("leaves")[0].GetProperty("outline").EnumerateArray().Select(corner => corner.EnumerateArray().Select(number => number.GetInt32()).ToArray())];

        // Area by the shoelace formula: 0.85 squared of the first, within the rounding of corners and what was taken for chewed.
        Assert.InRange(Area(now) / Area(outline), 0.70, 0.76);
        Assert.Equal("Ann", drawn.GetProperty("corrections")[0].GetProperty("who").GetString());

        JsonElement noMites = await page.DoAsync(HttpMethod.Post, "/api/photos/1/leaves/0/correction", new { what = "notMites" });
        Assert.DoesNotContain("miteStippling", noMites.GetProperty("leaves")[0].GetProperty("causes").EnumerateArray().Select(cause => cause.GetProperty("cause").GetString()));
        Assert.Equal(now.Length, noMites.GetProperty("leaves")[0].GetProperty("outline").GetArrayLength());

        JsonElement none = await page.DoAsync(HttpMethod.Post, "/api/photos/1/leaves/0/correction", new { what = "notALeaf" });
        Assert.Equal(0, none.GetProperty("leaves").GetArrayLength());
        Assert.Equal("no leaf", none.GetProperty("word").GetString());
        Assert.Empty(page.Store.LeavesOfPlant(1));

        foreach (int _ in Enumerable.Range(0, 3))
        {
            await page.DoAsync(HttpMethod.Post, "/api/undo");
        }

        JsonElement back = await page.GetAsync("/api/photos/1");
        Assert.Equal(damage, back.GetProperty("leaves")[0].GetProperty("damage").GetDouble());
        Assert.All(back.GetProperty("corrections").EnumerateArray(), said => Assert.NotEqual(JsonValueKind.Null, said.GetProperty("takenBack").ValueKind));
        Assert.Empty(page.Store.CheckIntegrity());
        using HttpResponseMessage outside = await page.SendAsync(HttpMethod.Post, "/api/photos/1/leaves/0/correction", new { what = "outline", outline = new[] { new[] { 0, 0 }, [99999, 0], [0, 5] } });
        await TestPage.ProblemOf(outside, 422);
        using HttpResponseMessage line = await page.SendAsync(HttpMethod.Post, "/api/photos/1/leaves/0/correction", new { what = "outline", outline = new[] { new[] { 0, 0 }, [9, 0] } });
        await TestPage.ProblemOf(line, 422);
        using HttpResponseMessage nobody = await page.SendAsync(HttpMethod.Post, "/api/photos/1/leaves/7/correction", new { what = "notALeaf" });
        await TestPage.ProblemOf(nobody, 404);
    }

    [Fact]
    public async Task Events_go_on_behind_the_last_one_that_a_page_got()
    {
        await using TestPage page = new();
        long walk = await BeginAsync(page);
        byte[][] texts = [Encoding.UTF8.GetBytes("one"), Encoding.UTF8.GetBytes("two"), Encoding.UTF8.GetBytes("three")];
        foreach (byte[] text in texts)
        {
            await page.PutPhotoAsync(walk, text, "name=note.txt");
        }

        await page.UntilMeasuredAsync();
        List<(long Id, string State)> all = await ListenAsync(page, walk, 0, 9);
        Assert.Equal(9, all.Count);
        Assert.Equal(["waiting", "measuring", "refused"], all.Select(one => one.State).Distinct());
        Assert.Equal(all.Select(one => one.Id).Distinct().Order(), all.Select(one => one.Id));
        List<(long Id, string State)> rest = await ListenAsync(page, walk, all[5].Id, 3);
        Assert.Equal(all[6..], rest);
    }

    [Fact]
    public async Task Wrong_bytes_empty_bytes_and_a_foreign_plant_are_refused()
    {
        await using TestPage page = new();
        long walk = await BeginAsync(page);
        byte[] bytes = [1, 2, 3];
        using HttpResponseMessage other = await page.PutPhotoAsync(walk, bytes, "name=a.jpg", new string('0', 64));
        await TestPage.ProblemOf(other, 422);
        using HttpResponseMessage empty = await page.PutPhotoAsync(walk, [], "name=a.jpg");
        await TestPage.ProblemOf(empty, 422);
        using HttpResponseMessage name = await page.PutPhotoAsync(walk, bytes, "name=a.jpg", "..%2f..%2fevil");
        await TestPage.ProblemOf(name, 422);
        using HttpResponseMessage plant = await page.PutPhotoAsync(walk, bytes, "name=a.jpg&plantId=77");
        await TestPage.ProblemOf(plant, 422);
        using HttpResponseMessage nowhere = await page.PutPhotoAsync(walk + 1, bytes, "name=a.jpg");
        await TestPage.ProblemOf(nowhere, 404);
        Assert.Equal(0, page.Store.LastUploadEvent());
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(page.Folder, "inbox")));
    }

    [Fact]
    public async Task A_file_that_vanished_while_it_waited_is_told_and_can_be_sent_into_another_walk()
    {
        await using TestPage page = new();
        long walk = await BeginAsync(page);
        byte[] bytes = [9, 9, 9];
        page.Store.AddUpload(new NewUpload { WalkId = walk, Sha256 = Some.Sha(bytes), FileName = "gone.jpg", Folder = "", StoredAs = "photos/2026-08-04/none.jpg" });
        await page.PutPhotoAsync(walk, Encoding.UTF8.GetBytes("wakes the worker"), "name=b.txt");
        await page.UntilMeasuredAsync();
        Assert.Equal("file missing", page.Store.FindUpload(walk, Some.Sha(bytes))!.Word);
    }

    private static async Task<long> BeginAsync(TestPage page)
        => (await page.DoAsync(HttpMethod.Post, "/api/walks", new { place = "Hill nursery" })).GetProperty("id").GetInt64();

    private static async Task PicturesCarryNothingHiddenAsync(TestPage page)
    {
        foreach (string picture in new[] { "picture?edge=8000", "overlay", "thumb" })
        {
            byte[] bytes = await page.Client.GetByteArrayAsync(new Uri($"/api/photos/1/{picture}", UriKind.Relative));
            Assert.Equal([0xFF, 0xD8, 0xFF], bytes[..3]);
            string letters = Encoding.Latin1.GetString(bytes);
            Assert.DoesNotContain("Exif", letters, StringComparison.Ordinal);
            Assert.DoesNotContain("SECRET-GARDEN", letters, StringComparison.Ordinal);
        }

        foreach (string address in new[] { "/api/photos/1", "/api/walks/1", "/api/plants/1" })
        {
            string text = await page.Client.GetStringAsync(new Uri(address, UriKind.Relative));
            Assert.DoesNotContain("gps", text, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("latitude", text, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("SECRET-GARDEN", text, StringComparison.Ordinal);
        }
    }

    private static async Task<List<(long Id, string State)>> ListenAsync(TestPage page, long walk, long after, int count)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, new Uri($"/api/events?walk={walk}", UriKind.Relative));
        request.Headers.TryAddWithoutValidation("Last-Event-ID", after.ToString(System.Globalization.CultureInfo.InvariantCulture));
        using HttpResponseMessage answer = await page.Client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
        Assert.Equal("text/event-stream", answer.Content.Headers.ContentType?.MediaType);
        using StreamReader lines = new(await answer.Content.ReadAsStreamAsync());
        List<(long, string)> events = [];
        long id = 0;
        while (events.Count < count && await lines.ReadLineAsync() is { } line)
        {
            if (line.StartsWith("id: ", StringComparison.Ordinal))
            {
                id = long.Parse(line[4..], System.Globalization.CultureInfo.InvariantCulture);
            }
            else if (line.StartsWith("data: ", StringComparison.Ordinal) && JsonDocument.Parse(line[6..]).RootElement is var data && data.TryGetProperty("state", out JsonElement state))
            {
                events.Add((id, state.GetString()!));
            }
        }

        return events;
    }

    private static double Area(int[][] corners)
    {
        double twice = 0;
        for (int i = 0; i < corners.Length; i++)
        {
            int[] next = corners[(i + 1) % corners.Length];
            twice += ((double)corners[i][0] * next[1]) - ((double)next[0] * corners[i][1]);
        }

        return Math.Abs(twice) / 2;
    }
}
