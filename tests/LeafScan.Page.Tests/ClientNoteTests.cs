using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;
using UglyToad.PdfPig;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>A client's note: seen, changed with keys alone, downloaded.</summary>
[Collection(GardenTests.Name)]
public sealed class ClientNoteTests(Garden garden)
{
    [BrowserFact]
    public async Task A_greeting_is_written_with_keys_seen_on_paper_downloaded_and_taken_back()
    {
        await using Visit visit = await garden.VisitAsync(width: 1280, height: 900);
        IPage page = visit.Page;
        await visit.OpenAsync("/plant/1");
        await visit.TabToAsync(page.GetByRole(AriaRole.Link, new() { Name = "Client note" }).First);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("h1")).ToHaveTextAsync("Client note: B07");
        ILocator paper1 = page.Locator("img.sheetpage").First;
        await Expect(paper1).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await Expect(page.Locator("textarea[name=done]")).ToHaveValueAsync(new System.Text.RegularExpressions.Regex("rinse", System.Text.RegularExpressions.RegexOptions.IgnoreCase));
        string before = (await paper1.GetAttributeAsync("src"))!;

        await visit.TabToAsync(page.Locator("textarea[name=greeting]"));
        await page.Keyboard.TypeAsync("Dear Ms Lund,");
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Keep Greeting" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByText("Greeting · your words")).ToBeVisibleAsync();
        await Expect(paper1).Not.ToHaveAttributeAsync("src", before, new() { Timeout = 60_000 });
        Assert.True(await paper1.EvaluateAsync<bool>("async image => { await image.decode(); return image.naturalWidth > 1000; }"));

        IDownload pdf = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Link, new() { Name = "PDF" }).ClickAsync());
        Assert.StartsWith("note-B07-", pdf.SuggestedFilename, StringComparison.Ordinal);
        await using (Stream bytes = await pdf.CreateReadStreamAsync())
        using (MemoryStream copy = new())
        {
            await bytes.CopyToAsync(copy);
            using PdfDocument paper = PdfDocument.Open(copy.ToArray());
            Assert.Contains("Lund", paper.GetPage(1).Text, StringComparison.Ordinal);
        }

        foreach ((string link, string ending) in new[] { ("Page for the browser", ".html"), ("Picture", ".png") })
        {
            IDownload file = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Link, new() { Name = link }).ClickAsync());
            Assert.EndsWith(ending, file.SuggestedFilename, StringComparison.Ordinal);
        }

        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Undo" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("textarea[name=greeting]")).ToHaveValueAsync("");
        Assert.Empty(visit.Troubles);
    }

    [BrowserFact]
    public async Task The_next_steps_stand_with_reason_source_and_caution()
    {
        await using Visit visit = await garden.VisitAsync();
        IPage page = visit.Page;
        await visit.OpenAsync("/next");
        ILocator card = page.Locator(".card", new() { HasText = "B07" });
        await visit.TabToAsync(card.Locator("summary"));
        await page.Keyboard.PressAsync("Enter");
        await Expect(card.Locator(".advice")).ToContainTextAsync("Source: ");
        await Expect(card.Locator(".advice")).ToContainTextAsync("Look again");
    }
}
