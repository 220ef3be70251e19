using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>A care entry and a tap that were entered wrong, put right on the plant's page, and taken back.</summary>
[Collection(GardenTests.Name)]
public sealed class ChangeEntryTests(Garden garden)
{
    [BrowserFact]
    public async Task Entries_are_put_right_in_place_and_undo_brings_them_back()
    {
        await using RunningServer server = await RunningServer.StartAsync();
        using HttpClient http = new() { BaseAddress = new Uri(server.Address) };
        http.DefaultRequestHeaders.Add("X-LeafScan", "1");
        (await http.PostAsync("/api/plants", Json.Of("""{"code":"B07","place":"Larkmere"}"""))).EnsureSuccessStatusCode();
        (await http.PostAsync("/api/plants/1/care", Json.Of("""{"date":"2026-07-10","what":"soap","note":"undersides"}"""))).EnsureSuccessStatusCode();
        (await http.PostAsync("/api/plants/1/taps", Json.Of("""{"date":"2026-07-03","mites":4,"strikes":3}"""))).EnsureSuccessStatusCode();
        await using Visit visit = await garden.VisitAsync(server.Address);
        IPage page = visit.Page;
        await visit.OpenAsync("/plant/1");
        await Expect(page.Locator("#no-series")).ToHaveTextAsync("No photo of this plant is on record yet.");

        // With keys alone: the form opens at its first field.
        ILocator done = page.GetByRole(AriaRole.Region, new() { Name = "What was done" });
        await visit.TabToAsync(done.GetByRole(AriaRole.Button, new() { Name = "Change Soap: undersides" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("select[name=changeWhat]")).ToBeFocusedAsync();
        await page.Locator("select[name=changeWhat]").SelectOptionAsync("oil");
        await page.Locator("input[name=changeDay]").FillAsync("2026-07-09");
        await page.Locator("input[name=changeNote]").FillAsync("");
        Assert.False(await visit.IsTooWideAsync());
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the change" }).ClickAsync();
        await Expect(page.Locator("#undo")).ToContainTextAsync("Oil of B07 is changed.");
        await Expect(done).ToContainTextAsync("Oil");
        await Expect(done).Not.ToContainTextAsync("undersides");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(done).ToContainTextAsync("Soap: undersides");

        await done.GetByRole(AriaRole.Button, new() { Name = "Change Tap: 4 mites, 3 strikes" }).ClickAsync();
        await page.Locator("input[name=changeMites]").FillAsync("14");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the change" }).ClickAsync();
        await Expect(done).ToContainTextAsync("Tap: 14 mites, 3 strikes");

        // What cannot be: the form stays with what was typed, and says why.
        await done.GetByRole(AriaRole.Button, new() { Name = "Change Tap: 14 mites" }).ClickAsync();
        await page.Locator("input[name=changeMites]").FillAsync("");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the change" }).ClickAsync();
        await Expect(done).ToContainTextAsync("A tap needs a count of mites");
        Assert.Empty(visit.Troubles);
        if (Environment.GetEnvironmentVariable("LEAFSCAN_SCREENS") is { } folder)
        {
            await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, "change-entry.png"), FullPage = true });
        }
    }
}
