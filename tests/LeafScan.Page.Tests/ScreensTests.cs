using System.Diagnostics;
using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>
/// Pictures of pages for the guide, from the demo's record: LEAFSCAN_SCREENS names the folder to write them to, usually docs/guide. Only
/// then; a person has to look at them.
/// </summary>
[Collection(GardenTests.Name)]
public sealed class ScreensTests(Garden garden)
{
    private static readonly string? Folder = Environment.GetEnvironmentVariable("LEAFSCAN_SCREENS");

    [BrowserFact]
    public async Task Pages_are_pictured_at_phone_size_and_at_desk_size()
    {
        if (Folder is null)
        {
            return;
        }

        await using (RunningServer empty = await RunningServer.StartAsync())
        {
            await using Visit first = await garden.VisitAsync(empty.Address);
            await first.OpenAsync("/");
            await ShootAsync(first, "start-phone");
        }

        await using RunningServer server = await RunningServer.StartAsync(fill: DemoAsync);
        using SampleTap tap = new(seed: 12);
        await using Visit desk = await garden.VisitAsync(server.Address, 1280, 900);
        await using Visit phone = await garden.VisitAsync(server.Address);

        await phone.OpenAsync("/plants");
        string plant = (await phone.Page.GetByRole(AriaRole.Link, new() { Name = "B07" }).First.GetAttributeAsync("href"))!;
        await phone.OpenAsync(plant);
        await ShootAsync(phone, "plant-phone", whole: false, height: 1420);
        await phone.OpenAsync("/next");
        await phone.Page.Locator(".card summary").First.ClickAsync();
        await ShootAsync(phone, "next-phone", whole: false, height: 1420);

        await desk.OpenAsync($"/notes{plant}");
        await Expect(desk.Page.Locator("img.sheetpage").First).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await desk.Page.Locator("textarea[name=greeting]").FillAsync("Dear Ms Lund,");
        await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Keep Greeting" }).ClickAsync();
        await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Close" }).ClickAsync();
        await desk.Page.WaitForTimeoutAsync(3000);
        await ShootAsync(desk, "note-desk", whole: false);
        await phone.OpenAsync($"/notes{plant}");
        await Expect(phone.Page.Locator("img.sheetpage").First).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await ShootAsync(phone, "note-phone", whole: false, height: 1420);

        await phone.OpenAsync(plant);
        await phone.Page.GetByText("Count from two photos of the sheet").ClickAsync();
        await phone.Page.Locator("input[name=tap1]").SetInputFilesAsync(tap.First);
        await Expect(phone.Page.Locator("main")).ToContainTextAsync("Now the second one.");
        await phone.Page.Locator("input[name=tap2]").SetInputFilesAsync(tap.Second);
        await Expect(phone.Page.Locator(".stage.taps")).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await phone.Page.GetByRole(AriaRole.Button, new() { Name = "Next speck" }).ClickAsync();
        await phone.Page.WaitForTimeoutAsync(1500);
        await ShootAsync(phone, "tap-phone", whole: false, height: 1150, () => phone.Page.Locator("#tap-title").EvaluateAsync("title => title.scrollIntoView()"));
        await phone.Page.GetByLabel("Mites, with the lens").FillAsync("7");
        await phone.Page.GetByRole(AriaRole.Button, new() { Name = "Enter tap" }).ClickAsync();
        await Expect(phone.Page.GetByRole(AriaRole.Link, new() { Name = "The sheet" })).ToBeVisibleAsync();
        await desk.OpenAsync("/tap/1");
        await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Next speck" }).ClickAsync();
        await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Whole sheet" }).ClickAsync();
        await desk.Page.WaitForTimeoutAsync(1500);
        await ShootAsync(desk, "tap-desk");
        await desk.OpenAsync(plant);
        await desk.Page.EmulateMediaAsync(new() { Media = Media.Print });
        await desk.Page.SetViewportSizeAsync(794, 1123);
        await desk.Page.AddRuleAsync("body { padding: 56px }");
        await ShootAsync(desk, "paper", whole: false);
    }

    private static async Task ShootAsync(Visit visit, string name, bool whole = true, int? height = null, Func<Task>? before = null)
    {
        if (height is { } tall)
        {
            await visit.Page.SetViewportSizeAsync(360, tall);
            await visit.Page.WaitForTimeoutAsync(500);
        }

        // Everything in sight is drawn before it is pictured.
        await visit.Page.EvaluateAsync("async () => { for (const image of document.images) { image.loading = 'eager'; image.scrollIntoView(); await new Promise(done => setTimeout(done, 300)); await image.decode().catch(() => {}); } scrollTo(0, 0); }");
        await (before?.Invoke() ?? Task.CompletedTask);
        await visit.Page.ScreenshotAsync(new() { Path = Path.Combine(Folder!, name + ".jpg"), Type = ScreenshotType.Jpeg, Quality = 80, FullPage = whole });
    }

    private static async Task DemoAsync(string data)
    {
        // The demo's record lies in its folder; the page is served on a copy's place.
        ProcessStartInfo start = new("dotnet", ["exec", Path.Combine(AppContext.BaseDirectory, "leafscan.dll"), "demo", "--out", data]) { RedirectStandardOutput = true };
        using Process demo = Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start.");
        await demo.StandardOutput.ReadToEndAsync();
        await demo.WaitForExitAsync();
        Assert.Equal(0, demo.ExitCode);
    }
}
