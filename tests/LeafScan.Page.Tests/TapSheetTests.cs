using System.Globalization;
using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>A tap sheet from two photos to the record: circled, put right by touch and by keys, beside the count with the lens.</summary>
[Collection(GardenTests.Name)]
public sealed class TapSheetTests(Garden garden)
{
    [BrowserFact]
    public async Task Two_photos_are_counted_circled_put_right_by_touch_and_kept_beside_the_lens_count()
    {
        using SampleTap tap = new();
        await using Visit visit = await garden.VisitAsync();
        IPage page = visit.Page;
        await visit.OpenAsync("/plant/1");
        await page.GetByText("Count from two photos of the sheet").ClickAsync();
        await page.Locator("input[name=tap1]").SetInputFilesAsync(tap.First);
        await Expect(page.Locator("main")).ToContainTextAsync("Now the second one.");
        await page.Locator("input[name=tap2]").SetInputFilesAsync(tap.Second);
        await Expect(page.Locator(".stage.taps")).ToBeVisibleAsync(new() { Timeout = 60_000 });
        int crawling = await page.Locator(".tapmark.mite").CountAsync();

        // The renderer knows how many walked; its reader may miss one in ten (docs/accuracy.md).
        Assert.InRange(crawling, (int)Math.Floor(tap.Crawling * 0.85), tap.Crawling + 1);
        await Expect(page.Locator("output[name=byPhoto]")).ToHaveTextAsync($"{crawling}");
        await Expect(page.Locator("input[name=mites]")).ToHaveValueAsync("");

        // A finger on a walker.
        await page.Locator(".stage.taps").ScrollIntoViewIfNeededAsync();
        LocatorBoundingBoxResult ring = (await page.Locator(".tapmark.mite circle:not(.under)").First.BoundingBoxAsync())!;
        await page.Mouse.ClickAsync(ring.X + (ring.Width / 2), ring.Y + (ring.Height / 2));
        await Expect(page.Locator(".speckpanel")).ToContainTextAsync("walked like a mite");
        await page.GetByRole(AriaRole.Button, new() { Name = "Not a mite" }).ClickAsync();
        await Expect(page.Locator("output[name=byPhoto]")).ToHaveTextAsync($"{crawling - 1}");
        await Expect(page.Locator("main")).ToContainTextAsync($"By the photos alone {crawling} walked");
        await Expect(page.Locator(".tapmark.said.byhand")).ToHaveCountAsync(1);

        await page.GetByLabel("Mites, with the lens").FillAsync("4");
        await page.GetByText("Strikes, predators, rinse").ClickAsync();
        await page.GetByLabel("Strikes", new() { Exact = true }).FillAsync("5");
        await page.Locator("input[name=predators]").FillAsync("2");
        await page.GetByLabel("Hours since rinse or rain").FillAsync("48");
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter tap" }).ClickAsync();
        await Expect(page.Locator("main")).ToContainTextAsync($"Tap: 4 mites with the lens, {crawling - 1} on the photos, 5 strikes, 2 predators, 48 hours after rinse or rain");

        // On the sheet's own page, with keys alone: the next speck, and a word on it.
        await page.GetByRole(AriaRole.Link, new() { Name = "The sheet" }).First.ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Tap sheet of B07");
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Next speck" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".speck.now")).ToBeInViewportAsync();
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Predator" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".tapmark.predator.byhand")).ToHaveCountAsync(1);
        await Expect(page.Locator("main")).ToContainTextAsync("What you said");

        // A place without a speck, by keys: the cross goes into the corner, where nothing lies.
        ILocator stage = page.Locator(".stage.taps");
        await stage.FocusAsync();
        for (int press = 0; press < 200 && await page.Locator(".stage .cross:not(.under)").CountAsync() < 1; press++)
        {
            await page.Keyboard.PressAsync("ArrowUp");
        }

        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".speckpanel")).ToBeVisibleAsync();
        await visit.OpenAsync("/plant/1");
        await Expect(page.Locator("main")).ToContainTextAsync(string.Create(CultureInfo.InvariantCulture, $"4 mites with the lens, {crawling - 2} on the photos"));
        Assert.Empty(visit.Troubles);
    }

    [BrowserFact]
    public async Task One_photo_twice_is_said_to_be_the_same()
    {
        using SampleTap tap = new(longSidePx: 800);
        await using Visit visit = await garden.VisitAsync();
        IPage page = visit.Page;
        await visit.OpenAsync("/plant/1");
        await page.GetByText("Count from two photos of the sheet").ClickAsync();
        await page.Locator("input[name=tap1]").SetInputFilesAsync(tap.First);
        await Expect(page.Locator("main")).ToContainTextAsync("Now the second one.");
        await page.Locator("input[name=tap2]").SetInputFilesAsync(tap.First);
        await Expect(page.Locator(".note.warn")).ToContainTextAsync("the same photo");
    }
}
