using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;

namespace LeafScan.Page.Tests;

/// <summary>Every page by the rules of WCAG that axe-core knows, at phone size and at desk size, in light and dark.</summary>
[Collection(GardenTests.Name)]
public sealed class LookTests(Garden garden)
{
    public static TheoryData<string> Pages => ["/", "/walk/1", "/plants", "/plant/1", "/photo/1", "/compare", "/block", "/next", "/notes", "/notes/plant/1", "/notes/place/1", "/tap/1", "/settings", "/pair", "/help"];

    [BrowserTheory]
    [MemberData(nameof(Pages))]
    public async Task On_a_phone_axe_finds_nothing_buttons_are_large_and_nothing_sticks_out(string path)
    {
        await using Visit visit = await garden.VisitAsync();
        await visit.OpenAsync(path);
        Assert.Empty(await visit.Page.EvaluateAsync<string[]>(SmallTargets));
        await AxeFindsNothingAsync(visit);

        await visit.Page.SetViewportSizeAsync(320, 640);
        Assert.False(await visit.IsTooWideAsync(), "too wide at 320 px");

        // WCAG 2.2, 1.4.4 and 1.4.10 ask for these two apart: letters of double size need no more than a window of 640.
        await visit.Page.SetViewportSizeAsync(640, 900);
        await visit.Page.AddRuleAsync("html { font-size: 225% }");
        Assert.False(await visit.IsTooWideAsync(), "too wide with letters of double size");
    }

    [BrowserTheory]
    [MemberData(nameof(Pages))]
    public async Task Axe_finds_nothing_at_a_desk_in_the_dark(string path)
    {
        await using Visit visit = await garden.VisitAsync(null, 1280, 800, ColorScheme.Dark);
        await visit.OpenAsync(path);
        await AxeFindsNothingAsync(visit);
    }

    // 48 px for gloves; links within a sentence are no targets of their own (WCAG 2.2, 2.5.8).
    private const string SmallTargets =
        """
        () => Array.from(document.querySelectorAll("button, .button, nav a, select, summary, label.tick, input:not([type=checkbox]):not([type=file]):not([type=range])"))
          .filter(one => one.checkVisibility() && one.getBoundingClientRect().height < 47.5)
          .map(one => `${one.outerHTML.slice(0, 80)} ${one.getBoundingClientRect().height}`)
        """;

    private static async Task AxeFindsNothingAsync(Visit visit)
    {
        await visit.Page.EvaluateAsync("document.querySelectorAll('details').forEach(part => part.open = true)");
        AxeResult result = await visit.Page.RunAxe();
        Assert.True(result.Passes.Length > 10, "axe looked at hardly anything");
        Assert.Empty(result.Violations.Select(one => $"{one.Id}: {one.Help} {string.Join(" | ", one.Nodes.Select(node => node.Html))}"));
        Assert.Empty(visit.Troubles);
    }
}
