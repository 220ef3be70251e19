using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;

namespace LeafScan.Page.Tests;

/// <summary>Every page by the rules of WCAG that axe-core knows, at phone size and at desk size, in light and dark.</summary>
[Collection(GardenTests.Name)]
public sealed class LookTests(Garden garden)
{
    public static TheoryData<string> Pages => ["/", "/walk/1", "/plants", "/plant/1", "/photo/1", "/compare", "/block", "/next", "/settings", "/pair", "/help"];

    [BrowserTheory]
    [MemberData(nameof(Pages))]
    public async Task Axe_finds_nothing_on_a_phone(string path) => await AxeFindsNothingAsync(path, 360, 740, ColorScheme.Light);

    [BrowserTheory]
    [MemberData(nameof(Pages))]
    public async Task Axe_finds_nothing_at_a_desk_in_the_dark(string path) => await AxeFindsNothingAsync(path, 1280, 800, ColorScheme.Dark);

    [BrowserTheory]
    [MemberData(nameof(Pages))]
    public async Task Nothing_is_wider_than_320_pixels_even_with_letters_of_double_size(string path)
    {
        await using Visit visit = await garden.VisitAsync(width: 320, height: 640);
        await visit.OpenAsync(path);
        Assert.False(await visit.IsTooWideAsync(), "too wide at 320 px");

        // WCAG 2.2, 1.4.4 and 1.4.10 ask for these two apart; both at once is a wider window with twice the letters.
        await visit.Page.SetViewportSizeAsync(640, 900);
        await visit.Page.AddStyleTagOrRuleAsync("html { font-size: 225% }");
        Assert.False(await visit.IsTooWideAsync(), "too wide with letters of double size");
    }

    [BrowserTheory]
    [MemberData(nameof(Pages))]
    public async Task What_is_pressed_is_at_least_48_pixels_high(string path)
    {
        await using Visit visit = await garden.VisitAsync();
        await visit.OpenAsync(path);
        string[] small = await visit.Page.EvaluateAsync<string[]>(
            """
            Array.from(document.querySelectorAll("button, .button, nav a, select, summary, label.tick, input:not([type=checkbox]):not([type=file]):not([type=range])"))
              .filter(one => one.checkVisibility() && one.getBoundingClientRect().height < 47.5)
              .map(one => `${one.outerHTML.slice(0, 80)} ${one.getBoundingClientRect().height}`)
            """);
        Assert.Empty(small);
    }

    private async Task AxeFindsNothingAsync(string path, int width, int height, ColorScheme scheme)
    {
        await using Visit visit = await garden.VisitAsync(null, width, height, scheme);
        await visit.OpenAsync(path);
        await visit.Page.EvaluateAsync("document.querySelectorAll('details').forEach(part => part.open = true)");
        AxeResult result = await visit.Page.RunAxe();
        Assert.True(result.Passes.Length > 10, "axe looked at hardly anything");
        Assert.Empty(result.Violations.Select(one => $"{one.Id}: {one.Help} {string.Join(" | ", one.Nodes.Select(node => node.Html))}"));
        Assert.Empty(visit.Troubles);
    }
}
