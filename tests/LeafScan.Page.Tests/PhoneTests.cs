using System.Text.Json;
using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>A phone that comes by the network, over plain http: no digest of the browser's own, no page without the code.</summary>
[Collection(GardenTests.Name)]
public sealed class PhoneTests(Garden garden)
{
    [LanFact]
    public async Task A_phone_gets_in_by_the_scanned_link_only_and_sends_photos()
    {
        await using RunningServer server = await RunningServer.StartAsync(lan: true);
        using HttpClient http = new();
        using JsonDocument pairing = JsonDocument.Parse(await http.GetStringAsync(new Uri(server.Address + "/api/pair")));
        Uri link = new(pairing.RootElement.GetProperty("link").GetString()!);

        await using Visit visit = await garden.VisitAsync(link.GetLeftPart(UriPartial.Authority));
        IPage page = visit.Page;
        await visit.OpenAsync("/plants");
        await Expect(page.Locator("h1")).ToHaveTextAsync("Pair this phone");
        await page.GetByLabel("Code").FillAsync("WRONG234");
        await page.GetByRole(AriaRole.Button, new() { Name = "Pair" }).ClickAsync();
        await Expect(page.Locator(".note.warn")).ToContainTextAsync("The code is wrong.");

        // On the same page the link differs behind the # only, and the browser loads nothing anew.
        await page.GotoAsync(link.ToString());
        await Expect(page.Locator("h1")).ToHaveTextAsync("Welcome. Start with one leaf.");
        Assert.False(await page.EvaluateAsync<bool>("isSecureContext"));
        await page.GetByLabel("Place").FillAsync("Hill");
        await page.Locator("input[name=camera]").SetInputFilesAsync(SamplePhotos.Of("2026-07-02", "B03", 1));
        await Expect(page.Locator("#sending")).ToContainTextAsync("All 1 here.", new() { Timeout = 30_000 });
    }
}
