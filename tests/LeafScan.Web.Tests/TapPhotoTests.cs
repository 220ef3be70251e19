using System.Text.Json;
using LeafScan.Web.Tests.Support;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;

namespace LeafScan.Web.Tests;

/// <summary>Two photos of a white sheet through the page.</summary>
public sealed class TapPhotoTests
{
    [Fact]
    public async Task What_moved_between_two_photos_is_counted_and_shown()
    {
        await using TestPage page = new();
        byte[] first = Sheet(moved: false), second = Sheet(moved: true);
        foreach (byte[] photo in new[] { first, second })
        {
            using HttpResponseMessage sent = await page.SendAsync(HttpMethod.Put, $"/api/taps/photos/{Some.Sha(photo)}", new ByteArrayContent(photo));
            Assert.Equal(200, (int)sent.StatusCode);
        }

        JsonElement reading = await page.DoAsync(HttpMethod.Post, "/api/taps/read", new { first = Some.Sha(first), second = Some.Sha(second), seconds = 8 });
        Assert.Equal(Walkers, reading.GetProperty("crawling").GetInt32());
        Assert.InRange(Walkers, reading.GetProperty("low").GetInt32(), reading.GetProperty("high").GetInt32());
        byte[] overlay = await page.Client.GetByteArrayAsync(new Uri(reading.GetProperty("overlay").GetString()!, UriKind.Relative));
        Assert.Equal([0xFF, 0xD8, 0xFF], overlay[..3]);
    }

    [Fact]
    public async Task A_word_on_a_speck_changes_the_count_beside_the_photos_own_and_the_lens_count_and_outlives_a_second_reading()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        long plant = page.Store.FindPlants("EU-1")[0].Id;
        byte[] first = Sheet(moved: false), second = Sheet(moved: true);
        await page.SendAsync(HttpMethod.Put, $"/api/taps/photos/{Some.Sha(first)}", new ByteArrayContent(first));
        await page.SendAsync(HttpMethod.Put, $"/api/taps/photos/{Some.Sha(second)}", new ByteArrayContent(second));
        JsonElement sheet = await page.DoAsync(HttpMethod.Post, "/api/taps/read", new { first = Some.Sha(first), second = Some.Sha(second), seconds = 8 });
        string at = $"/api/taps/sheets/{sheet.GetProperty("id").GetInt64()}";
        JsonElement[] walkers = [.. sheet.GetProperty("specks").EnumerateArray().Where(speck => speck.GetProperty("fate").GetString() == "crawling")];
        Assert.Equal(Walkers, walkers.Length);
        object On(JsonElement speck, string said) => new { x = speck.GetProperty("x").GetDouble() + 1.5, y = speck.GetProperty("y").GetDouble(), said, who = "Ann" };
        await page.DoAsync(HttpMethod.Post, at + "/specks", On(walkers[0], "notMite"));
        JsonElement corrected = await page.DoAsync(HttpMethod.Post, at + "/specks", On(walkers[1], "predator"));
        Assert.Equal((Walkers, Walkers - 2, 1), (corrected.GetProperty("crawling").GetInt32(), corrected.GetProperty("mites").GetInt32(), corrected.GetProperty("predators").GetInt32()));

        JsonElement tap = await page.DoAsync(HttpMethod.Post, $"/api/plants/{plant}/taps", new { mites = 3, sheetId = sheet.GetProperty("id").GetInt64(), strikes = 5, hoursSinceRinse = 48, predators = 1 });
        Assert.Equal((3, 3, Walkers - 2), (tap.GetProperty("mites").GetInt32(), tap.GetProperty("mitesByLens").GetInt32(), tap.GetProperty("mitesByPhoto").GetInt32()));

        // After it was kept: one that was missed is added, and the tap's count goes along; undo takes both back.
        int? Kept() => page.Store.TapsOfPlant(plant)[^1].Tap.MitesByPhoto;
        JsonElement added = await page.DoAsync(HttpMethod.Post, at + "/specks", new { x = 30, y = 30, said = "mite" });
        Assert.True(added.GetProperty("specks").EnumerateArray().Last().GetProperty("added").GetBoolean());
        Assert.Equal(Walkers - 1, Kept());
        await page.DoAsync(HttpMethod.Post, "/api/undo");
        Assert.Equal(Walkers - 2, Kept());
        await page.DoAsync(HttpMethod.Post, at + "/specks", On(walkers[0], "mite"));
        Assert.Equal(Walkers - 1, Kept());

        // Read again with other seconds: another reading, and every word on the photos still stands or is still told.
        JsonElement again = await page.DoAsync(HttpMethod.Post, "/api/taps/read", new { first = Some.Sha(first), second = Some.Sha(second), seconds = 9 });
        Assert.NotEqual(sheet.GetProperty("id").GetInt64(), again.GetProperty("id").GetInt64());
        Assert.Equal(Walkers - 1, again.GetProperty("mites").GetInt32());
        Assert.Equal(["notMite", "predator", "mite", "mite"], again.GetProperty("said").EnumerateArray().Select(said => said.GetProperty("said").GetString()));
        Assert.Equal(JsonValueKind.String, again.GetProperty("said")[2].GetProperty("takenBack").ValueKind);
        Assert.Equal("Ann", again.GetProperty("said")[0].GetProperty("who").GetString());

        using HttpResponseMessage outside = await page.SendAsync(HttpMethod.Post, at + "/specks", new { x = 30000, y = 3, said = "mite" });
        await TestPage.ProblemOf(outside, 422);
        using HttpResponseMessage nonsense = await page.SendAsync(HttpMethod.Post, at + "/specks", new { x = 3, y = 3, said = "flea" });
        await TestPage.ProblemOf(nonsense, 422);
    }

    [Fact]
    public async Task The_second_photo_is_laid_over_the_first_so_that_only_what_walked_differs()
    {
        await using TestPage page = new();
        byte[] first = Sheet(moved: false), second = Sheet(moved: true, shift: 23);
        await page.SendAsync(HttpMethod.Put, $"/api/taps/photos/{Some.Sha(first)}", new ByteArrayContent(first));
        await page.SendAsync(HttpMethod.Put, $"/api/taps/photos/{Some.Sha(second)}", new ByteArrayContent(second));
        JsonElement sheet = await page.DoAsync(HttpMethod.Post, "/api/taps/read", new { first = Some.Sha(first), second = Some.Sha(second), seconds = 8 });
        Assert.Equal(Walkers, sheet.GetProperty("crawling").GetInt32());
        string at = $"/api/taps/sheets/{sheet.GetProperty("id").GetInt64()}";
        using Image<Rgb24> one = Image.Load<Rgb24>(await page.Client.GetByteArrayAsync(new Uri(at + "/first?edge=1600", UriKind.Relative)));
        using Image<Rgb24> other = Image.Load<Rgb24>(await page.Client.GetByteArrayAsync(new Uri(at + "/second?edge=1600", UriKind.Relative)));
        Assert.Equal((one.Width, one.Height), (other.Width, other.Height));
        int differing = 0;
        for (int y = 60; y < one.Height - 60; y++)
        {
            for (int x = 60; x < one.Width - 60; x++)
            {
                differing += Math.Abs(one[x, y].G - other[x, y].G) > 60 ? 1 : 0;
            }
        }

        // Twelve discs of 29 pixels, where the six were and where they are, less a rim that JPEG blurs.
        Assert.InRange(differing, Walkers * 29, Walkers * 2 * 37);
    }

    [Fact]
    public async Task The_same_photo_twice_and_photos_that_never_came_are_refused()
    {
        await using TestPage page = new();
        byte[] sheet = Sheet(moved: false);
        await page.SendAsync(HttpMethod.Put, $"/api/taps/photos/{Some.Sha(sheet)}", new ByteArrayContent(sheet));
        using HttpResponseMessage same = await page.SendAsync(HttpMethod.Post, "/api/taps/read", new { first = Some.Sha(sheet), second = Some.Sha(sheet) });
        Assert.Contains("the same photo", await TestPage.ProblemOf(same, 422), StringComparison.Ordinal);
        using HttpResponseMessage none = await page.SendAsync(HttpMethod.Post, "/api/taps/read", new { first = Some.Sha(sheet), second = "../../leafscan.db" });
        await TestPage.ProblemOf(none, 404);
    }

    private const int Walkers = 6;

    // Drawn here: sixty grains that stay and six that go some pixels each its own way, as wind would not; nothing else, so the count is known.
    private static byte[] Sheet(bool moved, int shift = 0)
    {
        Random chance = new(5);
        using Image<Rgb24> sheet = new(1600, 1200, new Rgb24(236, 236, 234));
        for (int i = 0; i < 60 + Walkers; i++)
        {
            // One in each cell of a grid, so that none comes near another.
            int x = 90 + shift + (i % 11 * 130) + chance.Next(60), y = 90 + (i / 11 * 170) + chance.Next(60);
            bool walks = i % 11 == 5;
            double way = i * 2.4;
            Dot(sheet, x + (moved && walks ? (int)(14 * Math.Cos(way)) : 0), y + (moved && walks ? (int)(14 * Math.Sin(way)) : 0), 3);
        }

        using MemoryStream stream = new();
        sheet.SaveAsPng(stream);
        return stream.ToArray();
    }

    private static void Dot(Image<Rgb24> sheet, int x, int y, int radius)
    {
        for (int dy = -radius; dy <= radius; dy++)
        {
            for (int dx = -radius; dx <= radius; dx++)
            {
                if ((dx * dx) + (dy * dy) <= radius * radius)
                {
                    sheet[x + dx, y + dy] = new Rgb24(60, 45, 40);
                }
            }
        }
    }
}
