using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>Weak lines and programs that end: nothing is lost, nothing is sent twice.</summary>
[Collection(GardenTests.Name)]
public sealed class SendingTests(Garden garden)
{
    [BrowserFact]
    public async Task Photos_wait_for_a_program_that_ended_and_survive_a_reload()
    {
        await using RunningServer server = await RunningServer.StartAsync();
        await using Visit visit = await garden.VisitAsync(server.Address);
        IPage page = visit.Page;
        await visit.OpenAsync("/");
        await page.GetByLabel("Place").FillAsync("Hill");
        await server.KillAsync();
        await page.Locator("input[name=photos]").SetInputFilesAsync(SamplePhotos.Of("2026-07-02", "B03", 2));
        await Expect(page.Locator("#sending")).ToContainTextAsync("0 of 2 here. The program does not answer; trying again by itself. Nothing is lost.");

        await server.StartAgainAsync();
        await visit.OpenAsync("/");
        await Expect(page.Locator("#sending")).ToContainTextAsync("All 2 here.", new() { Timeout = 60_000 });
        await Expect(page.Locator(".card .word.good")).ToHaveCountAsync(2, new() { Timeout = 60_000 });
        using HttpClient http = new();
        Assert.Equal(2, await Json.NumberAsync(await http.GetAsync(new Uri(server.Address + "/api/state")), "photos"));

        // What was sent is no longer kept in the browser.
        await visit.OpenAsync("/");
        await Expect(page.Locator("#sending")).ToBeHiddenAsync();
    }

    [BrowserFact]
    public async Task The_own_SHA_256_is_that_of_the_browser_for_every_length_around_a_block()
    {
        await using Visit visit = await garden.VisitAsync();
        await visit.OpenAsync("/help");

        // crypto.subtle is an implementation from outside; it is missing over a local network, which is why ours exists.
        string[] wrong = await visit.Page.EvaluateAsync<string[]>(
            """
            async () => {
              const { Sha256 } = await import("/app/upload/sha256.js");
              const wrong = [];
              for (const length of [...Array(130).keys(), 1000, 4096, 100003]) {
                const bytes = Uint8Array.from({ length }, (_, i) => (i * 131 + length) & 255);
                const hex = Array.from(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)), b => b.toString(16).padStart(2, "0")).join("");
                if (new Sha256().add(bytes).hex() !== hex) wrong.push(`${length} whole`);
                const parts = new Sha256();
                for (let at = 0; at < length; at += 37) parts.add(bytes.subarray(at, at + 37));
                if (parts.hex() !== hex) wrong.push(`${length} in parts`);
              }
              return wrong;
            }
            """);
        Assert.Empty(wrong);
    }

    [BrowserFact]
    public async Task Folders_tell_plants_whichever_folder_was_dropped()
    {
        await using Visit visit = await garden.VisitAsync();
        await visit.OpenAsync("/help");
        (string[] Dropped, string[] Told)[] cases =
        [
            (["B07"], ["B07"]),
            (["june/B03", "june/B07"], ["B03", "B07"]),
            (["B03", "B07"], ["B03", "B07"]),
            (["2026-07-02/B07", "2026-08-03/B07"], ["B07", "B07"]),
            (["photos/walk-2026-07-02/B07"], ["B07"]),
            (["2026-07-02"], [""]),
            (["june", "june/B07"], ["", "B07"]),
            (["june/B07/new-growth", "june/B07/old-growth"], ["B07/new-growth", "B07/old-growth"]),
            (["june/B03", "june/B07/tagged-3"], ["B03", "B07/tagged-3"]),
            (["june/B12/more", "june/B13"], ["B12/more", "B13"]),
            (["", ""], ["", ""]),
        ];
        foreach ((string[] dropped, string[] told) in cases)
        {
            Assert.Equal(told, await visit.Page.EvaluateAsync<string[]>("async paths => (await import('/app/upload/gather.js')).plantFolders(paths)", dropped));
        }
    }

    [BrowserFact]
    public async Task A_place_name_with_markup_stays_text()
    {
        await using Visit visit = await garden.VisitAsync();
        await visit.OpenAsync("/walk/1");
        await Expect(visit.Page.Locator("main")).ToContainTextAsync("Hill <b>nursery</b>");
        await Expect(visit.Page.Locator("main b")).ToHaveCountAsync(0);
    }
}
