using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>Everything without a mouse (WCAG 2.2, 2.1.1): each test presses keys only.</summary>
[Collection(GardenTests.Name)]
public sealed class KeyboardTests(Garden garden)
{
    [BrowserFact]
    public async Task Care_is_entered_and_taken_back()
    {
        await using Visit visit = await garden.VisitAsync(width: 1280, height: 800);
        IPage page = visit.Page;
        await visit.OpenAsync("/plant/1");
        int before = await page.Locator("svg.chart .care-sign").CountAsync();
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Soap" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("svg.chart .care-sign")).ToHaveCountAsync(before + 1);
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Undo" }));
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("svg.chart .care-sign")).ToHaveCountAsync(before);
        await Expect(page.Locator("#live")).ToContainTextAsync("Taken back");
        Assert.Empty(visit.Troubles);
    }

    [BrowserFact]
    public async Task A_tap_without_mites_is_entered_and_taken_back()
    {
        await using Visit visit = await garden.VisitAsync();
        IPage page = visit.Page;
        await visit.OpenAsync("/plant/1");
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Enter tap" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("main")).ToContainTextAsync("Tap: 0 mites, 3 strikes");
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Undo" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("main")).Not.ToContainTextAsync("Tap: 0 mites");
    }

    [BrowserFact]
    public async Task The_slider_the_zoom_and_the_specks_work()
    {
        await using Visit visit = await garden.VisitAsync();
        IPage page = visit.Page;
        await visit.OpenAsync("/photo/1");
        ILocator slider = page.GetByRole(AriaRole.Slider);
        await visit.TabToAsync(slider);
        await page.Keyboard.PressAsync("Home");
        Assert.Equal("0%", await page.Locator(".stage").EvaluateAsync<string>("stage => stage.style.getPropertyValue('--shown')"));
        await page.Keyboard.PressAsync("End");
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Larger" }));
        await page.Keyboard.PressAsync("Enter");
        Assert.Equal("1.5", await page.Locator(".pane").EvaluateAsync<string>("pane => pane.style.getPropertyValue('--zoom')"));
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Next speck" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".speck.now")).ToBeInViewportAsync();
        await Expect(page.Locator("#live")).ToContainTextAsync("Speck 1 of");
    }

    [BrowserFact]
    public async Task An_outline_is_drawn_measured_and_taken_back()
    {
        await using Visit visit = await garden.VisitAsync(width: 1280, height: 800);
        IPage page = visit.Page;
        await visit.OpenAsync("/photo/2");
        string before = await page.Locator(".figure").First.InnerTextAsync();
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Draw the outline" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".stage")).ToBeFocusedAsync();

        // A square of eight steps around the middle.
        foreach ((string key, int presses) in new[] { ("ArrowLeft", 4), ("ArrowUp", 3), ("ArrowRight", 8), ("ArrowDown", 6), ("ArrowLeft", 8) })
        {
            for (int press = 0; press < presses; press++)
            {
                await page.Keyboard.PressAsync(key);
            }

            await page.Keyboard.PressAsync("Enter");
        }

        await page.Keyboard.PressAsync("Backspace");
        await Expect(page.Locator(".stage .tip")).ToHaveCountAsync(4);
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Use this outline" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("main")).ToContainTextAsync("Measured in the outline that you drew.", new() { Timeout = 30_000 });
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Undo" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("main")).Not.ToContainTextAsync("Measured in the outline that you drew.", new() { Timeout = 30_000 });
        await Expect(page.Locator(".figure").First).ToHaveTextAsync(before);
        Assert.Empty(visit.Troubles);
    }

    [BrowserFact]
    public async Task A_photo_is_given_to_another_plant_and_back()
    {
        await using Visit visit = await garden.VisitAsync();
        IPage page = visit.Page;
        await visit.OpenAsync("/walk/1");
        ILocator first = page.Locator(".card").First;
        await visit.TabToAsync(first.GetByRole(AriaRole.Button, new() { Name = "Plant B07" }));
        await page.Keyboard.PressAsync("Enter");
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "No plant" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(first.GetByRole(AriaRole.Button, new() { Name = "Which plant?" })).ToBeVisibleAsync();
        await visit.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Undo" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(first.GetByRole(AriaRole.Button, new() { Name = "Plant B07" })).ToBeVisibleAsync();
    }

    [BrowserFact]
    public async Task The_focus_is_always_seen()
    {
        await using Visit visit = await garden.VisitAsync();
        await visit.OpenAsync("/");
        for (int presses = 0; presses < 25; presses++)
        {
            await visit.Page.Keyboard.PressAsync("Tab");
            string seen = await visit.Page.EvaluateAsync<string>(
                """
                () => {
                  const one = document.activeElement, style = getComputedStyle(one);
                  if (one === document.body) return "";
                  const box = one.getBoundingClientRect();
                  const top = document.elementFromPoint(box.left + box.width / 2, box.top + Math.min(box.height, innerHeight) / 2);
                  if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) return `no ring: ${one.outerHTML.slice(0, 90)}`;
                  return top && (one.contains(top) || top.contains(one)) ? "" : `covered: ${one.outerHTML.slice(0, 90)}`;
                }
                """);
            Assert.Equal("", seen);
        }
    }
}
