using System.Text.Json;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Web.Measuring;
using LeafScan.Web.Tests.Support;

namespace LeafScan.Web.Tests;

/// <summary>A plant's healthy photo and two views of it lined up, through the page.</summary>
public sealed class FoliageTests
{
    private static readonly DateOnly May = new(2026, 5, 18), June = new(2026, 6, 18);

    [Fact]
    public async Task One_of_the_plants_own_photos_is_taken_as_healthy_taken_away_and_undone()
    {
        await using TestPage page = new();
        PhotoOnRecord green = Keep(page, "S4", May, "may.jpg", "twig", DrawnPlant.Twig(green: true));
        JsonElement answer = await page.DoAsync(HttpMethod.Put, "/api/plants/1/healthy", new { photoId = green.Id });
        Assert.Equal("may.jpg", answer.GetProperty("healthyPhoto").GetString());
        Assert.Equal(["Photos that are on record already keep their numbers."], answer.GetProperty("remarks").EnumerateArray().Select(remark => remark.GetString()));
        JsonElement plant = await page.GetAsync("/api/plants/1");
        Assert.Equal(("may.jpg", green.Sha256), (plant.GetProperty("healthyPhoto").GetString(), plant.GetProperty("healthySha256").GetString()));
        Assert.Equal("twig", plant.GetProperty("photos")[0].GetProperty("kind").GetString());

        // What the page measures from now on is held against it, as after "plants set --healthy".
        HealthyOnRecord kept = page.Store.FindPlant(1)!.Facts.Healthy!;
        Assert.Equal(kept.Colour, Options.For(page.Store, 1).Healthy);

        Assert.Equal(JsonValueKind.Null, (await page.DoAsync(HttpMethod.Delete, "/api/plants/1/healthy")).GetProperty("healthyPhoto").ValueKind);
        Assert.Null(page.Store.FindPlant(1)!.Facts.Healthy);
        Assert.Contains("healthy photo", (await page.DoAsync(HttpMethod.Post, "/api/undo")).GetProperty("undone").GetString(), StringComparison.Ordinal);
        Assert.Equal(kept, page.Store.FindPlant(1)!.Facts.Healthy);
        await page.DoAsync(HttpMethod.Post, "/api/undo");
        Assert.Null(page.Store.FindPlant(1)!.Facts.Healthy);
    }

    [Fact]
    public async Task A_photo_of_no_use_is_refused_in_the_words_of_the_command_and_nothing_is_changed()
    {
        await using TestPage page = new();
        byte[] twig = DrawnPlant.Twig(green: true);
        PhotoOnRecord leaf = Keep(page, "S4", May, "leaf.jpg", "leaf", DrawnPlant.Twig(green: true, seed: 2));
        PhotoOnRecord cut = Keep(page, "S4", May, "cut.jpg", "twig", twig[..(twig.Length * 2 / 3)]);
        PhotoOnRecord gone = Keep(page, "S4", May, "gone.jpg", "twig", DrawnPlant.Twig(green: true, seed: 3));
        PhotoOnRecord other = Keep(page, "S5", May, "other.jpg", "twig", DrawnPlant.Twig(green: true, seed: 4));
        PhotoOnRecord changed = Keep(page, "S4", May, "changed.jpg", "twig", DrawnPlant.Twig(green: true, seed: 5));
        PhotoOnRecord yellow = Keep(page, "S4", June, "yellow.jpg", "twig", DrawnPlant.Twig(green: false));
        File.Delete(gone.PathSeen);
        File.WriteAllBytes(changed.PathSeen, twig);

        Assert.Contains("this one is of a leaf", await Refused(page, leaf, 422), StringComparison.Ordinal);
        Assert.Contains("The healthy photo cut.jpg is of no use: The healthy photo is cut off or corrupt", await Refused(page, cut, 422), StringComparison.Ordinal);
        Assert.Contains("The healthy photo changed.jpg is of no use: Its file is another one", await Refused(page, changed, 422), StringComparison.Ordinal);
        Assert.Contains("no longer at", await Refused(page, gone, 404), StringComparison.Ordinal);
        Assert.Contains("no such photo of this plant", await Refused(page, other, 404), StringComparison.Ordinal);
        Assert.Null(page.Store.FindPlant(1)!.Facts.Healthy);
        Assert.Empty(page.Store.EditsOf("plant", 1));

        // One that is hardly healthy is taken, and what speaks against it is said; or refused for want of a living colour.
        using HttpResponseMessage answer = await page.SendAsync(HttpMethod.Put, "/api/plants/1/healthy", new { photoId = yellow.Id });
        string said = await answer.Content.ReadAsStringAsync();
        Assert.True(said.Contains("of the foliage is discoloured; the colour of the rest is taken.", StringComparison.Ordinal) || said.Contains("Hardly any foliage on the healthy photo", StringComparison.Ordinal), said);
        using HttpResponseMessage nobody = await page.SendAsync(HttpMethod.Delete, "/api/plants/99/healthy");
        await TestPage.ProblemOf(nobody, 404);
    }

    [Fact]
    public async Task Two_days_of_a_plant_are_lined_up_with_the_properties_of_the_commands_document_and_a_picture()
    {
        await using TestPage page = new();
        Keep(page, "S4", May, "may.jpg", "plant", DrawnPlant.Bush(brown: 0));
        PhotoOnRecord june = Keep(page, "S4", June, "june.jpg", "plant", DrawnPlant.Bush(brown: 0.5, aside: 14));
        JsonElement views = await page.GetAsync("/api/plants/1/views?from=2026-05-18&to=2026-06-18");
        Assert.True(views.GetProperty("linedUp").GetBoolean(), views.ToString());
        Assert.Equal(("may.jpg", "2026-05-18", "june.jpg", "2026-06-18"), (views.GetProperty("earlier").GetString(), views.GetProperty("earlierDay").GetString(), views.GetProperty("later").GetString(), views.GetProperty("laterDay").GetString()));

        // The left half is drawn brown. Strokes are strange to the network, which sees a little brown on the right too (decision 051).
        ILookup<string?, JsonElement> sides = views.GetProperty("sectors").EnumerateArray().ToLookup(sector => sector.GetProperty("side").GetString());
        Assert.All(sides["left"], sector => Assert.Equal("worse", sector.GetProperty("change").GetString()));
        Assert.True(sides["left"].Min(sector => sector.GetProperty("discoloured").GetDouble()) > sides["right"].Max(sector => sector.GetProperty("discoloured").GetDouble()) + 0.3, views.ToString());

        // The published schema of the command's document names the same properties.
        using JsonDocument schema = JsonDocument.Parse(File.ReadAllText(Schema("compare-1.json")));
        JsonElement named = schema.RootElement.GetProperty("properties").GetProperty("views").GetProperty("properties");
        Assert.Equal(
            named.EnumerateObject().Select(property => property.Name).Append("sameWithin").Order(StringComparer.Ordinal),
            views.EnumerateObject().Select(property => property.Name).Order(StringComparer.Ordinal));

        byte[] picture = await page.Client.GetByteArrayAsync(new Uri("/api/plants/1/views/picture?from=2026-05-18&to=2026-06-18", UriKind.Relative));
        Assert.Equal([0xFF, 0xD8, 0xFF], picture[..3]);

        // Made once: the photo is gone and it is still there.
        File.Delete(june.PathSeen);
        Assert.Equal(views.GetRawText(), (await page.GetAsync("/api/plants/1/views?from=2026-05-18&to=2026-06-18")).GetRawText());
        Assert.Equal(picture, await page.Client.GetByteArrayAsync(new Uri("/api/plants/1/views/picture?from=2026-05-18&to=2026-06-18", UriKind.Relative)));
    }

    [Fact]
    public async Task What_cannot_be_lined_up_is_said_in_a_sentence()
    {
        await using TestPage page = new();
        Keep(page, "S4", May, "may.jpg", "plant", DrawnPlant.Bush(brown: 0));
        Keep(page, "S4", June, "june.jpg", "plant", DrawnPlant.Bush(brown: 0, seed: 6));
        JsonElement views = await page.GetAsync("/api/plants/1/views?from=2026-05-18&to=2026-06-18");
        Assert.False(views.GetProperty("linedUp").GetBoolean());
        Assert.NotEmpty(views.GetProperty("reason").GetString()!);
        Assert.Equal(JsonValueKind.Null, views.GetProperty("sectors").ValueKind);
        JsonElement nothing = await page.GetAsync("/api/plants/1/views?from=2026-05-18&to=2026-07-01");
        Assert.Equal("No whole-plant photo of S4 from 2026-07-01 can be opened and measured.", nothing.GetProperty("reason").GetString());
        using HttpResponseMessage picture = await page.SendAsync(HttpMethod.Get, "/api/plants/1/views/picture?from=2026-05-18&to=2026-06-18");
        Assert.Equal(views.GetProperty("reason").GetString(), await TestPage.ProblemOf(picture, 404));
        using HttpResponseMessage order = await page.SendAsync(HttpMethod.Get, "/api/plants/1/views?from=2026-06-18&to=2026-05-18");
        await TestPage.ProblemOf(order, 422);
        using HttpResponseMessage nobody = await page.SendAsync(HttpMethod.Get, "/api/plants/99/views?from=2026-05-18&to=2026-06-18");
        await TestPage.ProblemOf(nobody, 404);
    }

    private static string Schema(string name)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "LeafScan.sln")))
        {
            folder = folder.Parent;
        }

        return Path.Combine(folder!.FullName, "docs", "schemas", name);
    }

    private static async Task<string> Refused(TestPage page, PhotoOnRecord photo, int status)
    {
        using HttpResponseMessage answer = await page.SendAsync(HttpMethod.Put, "/api/plants/1/healthy", new { photoId = photo.Id });
        return await TestPage.ProblemOf(answer, status);
    }

    // On record with a reading nobody measured, its file beside the record: what is asked about it is measured then.
    private static PhotoOnRecord Keep(TestPage page, string plant, DateOnly day, string name, string kind, byte[] bytes)
    {
        string path = Path.Combine(page.Folder, Some.Sha(bytes) + ".jpg");
        File.WriteAllBytes(path, bytes);
        return page.Store.RecordPhoto(new NewPhoto
        {
            WalkId = page.Store.FindOrAddWalk(page.Store.FindOrAddPlace("Hill nursery").Id, day).Id,
            Facts = new PhotoFacts { FileName = name, Path = path, Sha256 = Some.Sha(bytes), ByteLength = bytes.Length, Format = PhotoFormat.Jpeg, WidthPx = 100, HeightPx = 100 },
            Reading = new PhotoReading { File = name, Sha256 = Some.Sha(bytes), Width = 100, Height = 100, Kind = kind, Flags = [], Leaves = [Some.Leaf(0.1)] },
            Origin = new ReadingOrigin("0.0.1", "0123456789abcdef"),
            Plant = PlantGuess.ByHand(plant),
        }).Photo;
    }
}
