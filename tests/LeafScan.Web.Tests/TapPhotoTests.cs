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
    private static byte[] Sheet(bool moved)
    {
        Random chance = new(5);
        using Image<Rgb24> sheet = new(1600, 1200, new Rgb24(236, 236, 234));
        for (int i = 0; i < 60 + Walkers; i++)
        {
            // One in each cell of a grid, so that none comes near another.
            int x = 90 + (i % 11 * 130) + chance.Next(60), y = 90 + (i / 11 * 170) + chance.Next(60);
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
