using System.Text;
using System.Text.Json;
using LeafScan.Records;
using LeafScan.Web.Tests.Support;
using UglyToad.PdfPig;

namespace LeafScan.Web.Tests;

/// <summary>Clients' notes through the page.</summary>
public sealed class NotesTests
{
    [Fact]
    public async Task A_part_in_ones_own_words_stands_on_every_kind_of_note_and_undo_brings_the_composed_one_back()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        long plant = page.Store.FindPlants("EU-1")[0].Id;
        JsonElement before = await page.GetAsync($"/api/plants/{plant}/note");
        Assert.Equal(["greeting", "seen", "done", "next", "cautions", "closing"], before.GetProperty("parts").EnumerateArray().Select(part => part.GetProperty("part").GetString()));
        Assert.Equal("2026-07-10", before.GetProperty("walk").GetString());
        Assert.Contains("rinse", Part(before, "done").GetProperty("words").GetString(), StringComparison.OrdinalIgnoreCase);

        await page.DoAsync(HttpMethod.Put, $"/api/plants/{plant}/note/parts/greeting", new { words = "Dear <Ms> Lund," });
        JsonElement after = await page.DoAsync(HttpMethod.Put, $"/api/plants/{plant}/note/parts/next", new { words = "I come again on Friday.", forWalk = "2026-07-10" });
        Assert.True(Part(after, "next").GetProperty("isOwn").GetBoolean());
        Assert.Equal("2026-07-10", Part(after, "next").GetProperty("forWalk").GetString());
        Assert.Equal(JsonValueKind.Null, Part(after, "greeting").GetProperty("forWalk").ValueKind);

        // The same store as the command's "note text".
        Assert.Equal([(NoteBlock.Greeting, "Dear <Ms> Lund,"), (NoteBlock.Next, "I come again on Friday.")], page.Store.NoteTextsOfPlant(plant).Select(text => (text.Block, text.Words)));

        string html = await page.Client.GetStringAsync(new Uri($"/api/plants/{plant}/note/html", UriKind.Relative));
        Assert.Contains("Dear &lt;Ms&gt; Lund,", html, StringComparison.Ordinal);
        Assert.Contains("I come again on Friday.", html, StringComparison.Ordinal);
        using HttpResponseMessage sent = await page.SendAsync(HttpMethod.Get, $"/api/plants/{plant}/note/pdf");
        Assert.Equal("note-EU-1-2026-08-04.pdf", sent.Content.Headers.ContentDisposition?.FileName);
        using (PdfDocument pdf = PdfDocument.Open(await sent.Content.ReadAsByteArrayAsync()))
        {
            Assert.Contains("Friday", pdf.GetPage(1).Text, StringComparison.Ordinal);
            Assert.Equal((await page.GetAsync($"/api/plants/{plant}/note/pages")).GetProperty("pages").GetInt32(), pdf.NumberOfPages);
        }

        Assert.Equal("\u0089PNG", Encoding.Latin1.GetString((await page.Client.GetByteArrayAsync(new Uri($"/api/plants/{plant}/note/picture?page=1", UriKind.Relative)))[..4]));
        using HttpResponseMessage far = await page.SendAsync(HttpMethod.Get, $"/api/plants/{plant}/note/picture?page=9");
        await TestPage.ProblemOf(far, 404);

        await page.DoAsync(HttpMethod.Post, "/api/undo");
        Assert.Equal(Part(before, "next").GetRawText(), Part(await page.GetAsync($"/api/plants/{plant}/note"), "next").GetRawText());
        using HttpResponseMessage wrong = await page.SendAsync(HttpMethod.Put, $"/api/plants/{plant}/note/parts/price", new { words = "12" });
        await TestPage.ProblemOf(wrong, 422);
        using HttpResponseMessage nobody = await page.SendAsync(HttpMethod.Get, "/api/plants/99/note");
        await TestPage.ProblemOf(nobody, 404);
    }

    [Fact]
    public async Task A_place_has_a_note_of_all_its_plants_in_the_form_of_its_clients_country()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        Place place = page.Store.FindPlace("Hill nursery")!;
        page.Store.SetClient(place.Id, "Harbour Hotel", "test");
        await page.DoAsync(HttpMethod.Put, "/api/notes/sender", new { by = "Jo Brandt", contact = "jo@brandt.example", country = "de" });
        JsonElement sender = await page.DoAsync(HttpMethod.Put, "/api/notes/sender", new { client = "harbour hotel", country = "US" });
        Assert.Equal(("Jo Brandt", "DE"), (sender.GetProperty("by").GetString(), sender.GetProperty("country").GetString()));
        Assert.Equal("letter", (await page.GetAsync($"/api/places/{place.Id}/note/pages")).GetProperty("paper").GetString());
        string html = await page.Client.GetStringAsync(new Uri($"/api/places/{place.Id}/note/html", UriKind.Relative));
        Assert.Contains("EU-2", html, StringComparison.Ordinal);
        Assert.Contains("Jo Brandt", html, StringComparison.Ordinal);
        Assert.Contains("Harbour Hotel", html, StringComparison.Ordinal);
        await page.DoAsync(HttpMethod.Put, $"/api/places/{place.Id}/note/parts/closing", new { words = "With thanks" });
        Assert.Single(page.Store.NoteTextsOfPlace(place.Id));
        using HttpResponseMessage unknown = await page.SendAsync(HttpMethod.Put, "/api/notes/sender", new { client = "Nobody", country = "US" });
        await TestPage.ProblemOf(unknown, 404);
        using HttpResponseMessage wrong = await page.SendAsync(HttpMethod.Put, "/api/notes/sender", new { country = "Germany" });
        await TestPage.ProblemOf(wrong, 422);
    }

    [Fact]
    public async Task The_picture_of_a_note_is_measured_once_and_kept_for_the_downloads()
    {
        await using TestPage page = new();
        long walk = (await page.DoAsync(HttpMethod.Post, "/api/walks", new { place = "Hill" })).GetProperty("id").GetInt64();
        await page.PutPhotoAsync(walk, Some.LeafPhoto(), "name=IMG_7.jpg&folder=EU-1");
        await page.UntilMeasuredAsync();
        JsonElement paper = await page.GetAsync("/api/plants/1/note/pages");
        Assert.True(paper.GetProperty("hasPicture").GetBoolean());
        Assert.Equal(1, paper.GetProperty("pages").GetInt32());

        // Kept: with the file gone it is still there. The record asks for files that exist, so the file is emptied.
        File.WriteAllBytes(page.Store.Photos()[0].PathSeen, []);
        Assert.Contains("data:image/jpeg", await page.Client.GetStringAsync(new Uri("/api/plants/1/note/html", UriKind.Relative)), StringComparison.Ordinal);
    }

    private static JsonElement Part(JsonElement note, string name) => note.GetProperty("parts").EnumerateArray().Single(part => part.GetProperty("part").GetString() == name);
}
