using LeafScan.Web.Measuring;
using LeafScan.Web.Tests.Support;
using LeafScan.Web.Uploads;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;

namespace LeafScan.Web.Tests;

/// <summary>Pictures that were drawn: made again when they are gone, and never more of them than allowed.</summary>
public sealed class DrawnTests
{
    [Fact]
    public async Task The_marks_of_a_reading_by_another_version_are_drawn_and_the_figures_stay_as_they_were()
    {
        await using TestPage page = new();
        long walk = (await page.DoAsync(HttpMethod.Post, "/api/walks", new { place = "Hill" })).GetProperty("id").GetInt64();
        await page.PutPhotoAsync(walk, Some.LeafPhoto(), "name=IMG_7.jpg&folder=EU-1");
        await page.UntilMeasuredAsync();
        byte[] fresh = await page.Client.GetByteArrayAsync(new Uri("/api/photos/1/overlay?edge=800", UriKind.Relative));
        Assert.False((await page.GetAsync("/api/photos/1")).GetProperty("marksAreNewer").GetBoolean());
        string figures = (await page.GetAsync("/api/photos/1")).GetProperty("leaves").GetRawText();

        // As if an older version had measured it and nothing drawn were left.
        using (SqliteConnection store = new($"Data Source={page.Store.File};Pooling=False"))
        {
            store.Open();
            using SqliteCommand older = store.CreateCommand();
            older.CommandText = "UPDATE reading SET tool_version = '0.0.1', options_hash = '0123456789abcdef'";
            older.ExecuteNonQuery();
        }

        Directory.Delete(Path.Combine(page.Folder, "drawn"), recursive: true);
        Assert.True((await page.GetAsync("/api/photos/1")).GetProperty("marksAreNewer").GetBoolean());
        byte[] again = await page.Client.GetByteArrayAsync(new Uri("/api/photos/1/overlay?edge=800", UriKind.Relative));

        // The same version in truth, so the same picture.
        Assert.Equal(fresh, again);
        Assert.Equal(figures, (await page.GetAsync("/api/photos/1")).GetProperty("leaves").GetRawText());
        Assert.Single(page.Store.ReadingsOfPhoto(1));
    }

    [Fact]
    public async Task The_marks_of_a_corrected_leaf_come_back_with_the_correction()
    {
        await using TestPage page = new();
        long walk = (await page.DoAsync(HttpMethod.Post, "/api/walks", new { place = "Hill" })).GetProperty("id").GetInt64();
        await page.PutPhotoAsync(walk, Some.LeafPhoto(1), "name=IMG_7.jpg&folder=EU-1");
        await page.UntilMeasuredAsync();
        await page.DoAsync(HttpMethod.Post, "/api/photos/1/leaves/0/correction", new { what = "outline", outline = new int[][] { [200, 150], [500, 150], [500, 400], [200, 400] } });
        byte[] fresh = await page.Client.GetByteArrayAsync(new Uri("/api/photos/1/overlay?edge=800", UriKind.Relative));
        Directory.Delete(Path.Combine(page.Folder, "drawn"), recursive: true);
        Assert.Equal(fresh, await page.Client.GetByteArrayAsync(new Uri("/api/photos/1/overlay?edge=800", UriKind.Relative)));
        Assert.False((await page.GetAsync("/api/photos/1")).GetProperty("marksAreNewer").GetBoolean());
    }

    [Fact]
    public async Task Of_drawn_pictures_those_not_looked_at_for_longest_go_when_there_are_too_many()
    {
        await using TestPage page = new();
        string drawn = page.Services.GetRequiredService<PhotoFiles>().Drawn;
        Directory.CreateDirectory(drawn);
        DateTime now = page.Clock.GetUtcNow().UtcDateTime;
        for (int i = 0; i < 10; i++)
        {
            string file = Path.Combine(drawn, $"{i}.jpg");
            File.WriteAllBytes(file, new byte[1000]);
            File.SetLastWriteTimeUtc(file, now.AddHours(i - 20));
        }

        DrawnRoom room = new(page.Services.GetRequiredService<PhotoFiles>(), new ServerOptions { DrawnMostBytes = 5000, Clock = page.Clock });

        // The oldest is looked at, so it is no longer the oldest.
        room.Seen(Path.Combine(drawn, "0.jpg"));
        Assert.Equal(6, room.Tidy());
        Assert.Equal(["0.jpg", "7.jpg", "8.jpg", "9.jpg"], Directory.EnumerateFiles(drawn).Select(Path.GetFileName).Order());
        Assert.Equal(0, room.Tidy());
    }
}
