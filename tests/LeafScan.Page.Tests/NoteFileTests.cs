using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;

namespace LeafScan.Page.Tests;

/// <summary>The client's note for the browser, opened from a file as a client does.</summary>
[Collection(GardenTests.Name)]
public sealed class NoteFileTests(Garden garden)
{
    [BrowserTheory]
    [InlineData("plant", ColorScheme.Light, 1280)]
    [InlineData("plant", ColorScheme.Dark, 360)]
    [InlineData("place", ColorScheme.Light, 360)]
    public async Task Axe_finds_nothing_and_nothing_is_asked_for_from_outside(string what, ColorScheme scheme, int width)
    {
        string file = Path.Combine(Path.GetTempPath(), $"leafscan-note-{Guid.NewGuid():n}.html");
        try
        {
            await garden.WriteAsync(["note", .. what == "plant" ? (string[])["B07"] : ["--place", "Hill <b>nursery</b>"], "--out", file]);
            await using Visit visit = await garden.VisitAsync(null, width, 800, scheme);
            List<string> asked = [];
            visit.Page.Request += (_, request) => asked.Add(request.Url);
            await visit.Page.GotoAsync("file://" + file);
            AxeResult result = await visit.Page.RunAxe();
            Assert.True(result.Passes.Length > 10, "axe looked at hardly anything");
            Assert.Empty(result.Violations.Select(one => $"{one.Id}: {one.Help} {string.Join(" | ", one.Nodes.Select(node => node.Html[..Math.Min(node.Html.Length, 200)]))}"));
            Assert.Empty(visit.Troubles);
            Assert.False(await visit.IsTooWideAsync(), "sticks out");
            Assert.All(asked, url => Assert.True(url.StartsWith("file://" + file, StringComparison.Ordinal) || url.StartsWith("data:", StringComparison.Ordinal), url[..Math.Min(url.Length, 100)]));

            // The photo is there and has its words; the figure is text that a screen reader reads.
            Assert.True(await visit.Page.EvaluateAsync<bool>("document.querySelector('figure img').naturalWidth > 300 && document.querySelector('figure img').alt.length > 40"));
            Assert.Equal(1, await visit.Page.Locator("h1").CountAsync());
        }
        finally
        {
            File.Delete(file);
        }
    }
}
