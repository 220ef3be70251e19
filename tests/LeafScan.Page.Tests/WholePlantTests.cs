using System.Diagnostics;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using LeafScan.Page.Tests.Support;
using LeafScan.Web.Tests.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>A plant of whole-plant photos: gaps and sides in its table, two days lined up, its healthy photo.</summary>
[Collection(GardenTests.Name)]
public sealed class WholePlantTests(Garden garden)
{
    [BrowserFact]
    public async Task Gaps_stand_in_the_table_two_days_are_lined_up_and_a_healthy_photo_is_chosen_and_taken_back()
    {
        await using RunningServer server = await RunningServer.StartAsync(fill: FillAsync);
        await using Visit visit = await garden.VisitAsync(server.Address);
        await visit.OpenAsync("/plant/1");
        IPage page = visit.Page;
        await Expect(page.Locator("table").First).ToContainTextAsync("Gaps");
        Assert.Equal(["Visit", "Views", "Damage", "90 % range", "Yellowed", "Browned", "Gaps", "Worst side"], await page.Locator("table").First.Locator("thead th").AllInnerTextsAsync());

        await page.GetByRole(AriaRole.Button, new() { Name = "Line up" }).ClickAsync();
        await Expect(page.Locator(".views img")).ToBeVisibleAsync(new() { Timeout = 60_000 });
        Assert.True(await page.Locator(".views img").EvaluateAsync<int>("async image => { await image.decode(); return image.naturalWidth; }") > 600);
        await Expect(page.GetByRole(AriaRole.Row, new() { Name = "left high" })).ToContainTextAsync("worse");

        await page.GetByText("A photo of it in health").ClickAsync();
        Assert.False(await visit.IsTooWideAsync());
        await page.GetByRole(AriaRole.Button, new() { Name = "Take as healthy : may.jpg" }).ClickAsync();
        await Expect(page.Locator("#undo")).ToContainTextAsync("S4 is measured against may.jpg from now on.", new() { Timeout = 60_000 });
        await Expect(page.Locator("main")).ToContainTextAsync("in health as on may.jpg");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it away" }).ClickAsync();
        await Expect(page.Locator("#undo")).ToContainTextAsync("S4 has no healthy photo any more.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await Expect(page.Locator("main")).ToContainTextAsync("in health as on may.jpg");

        await page.Locator("#undo").GetByRole(AriaRole.Button, new() { Name = "Close" }).ClickAsync();
        await page.EvaluateAsync("document.querySelectorAll('details').forEach(part => part.open = true)");
        AxeResult result = await page.RunAxe();
        Assert.True(result.Passes.Length > 10, "axe looked at hardly anything");
        Assert.Empty(result.Violations.Select(one => $"{one.Id}: {one.Help} {string.Join(" | ", one.Nodes.Select(node => node.Html))}"));
        Assert.Empty(visit.Troubles);
    }

    // By the command, which says what the photos show: drawings are nothing the page should guess at.
    private static async Task FillAsync(string data)
    {
        foreach ((string name, string day, double brown, int aside) in new[] { ("may", "2026-05-18", 0.0, 0), ("june", "2026-06-18", 0.5, 14) })
        {
            // They stay where they were when they were measured.
            string folder = Path.Combine(data, "mine", name), file = Path.Combine(Directory.CreateDirectory(Path.Combine(folder, "S4")).FullName, name + ".jpg");
            await File.WriteAllBytesAsync(file, DrawnPlant.Bush(brown, aside));
            File.SetLastWriteTimeUtc(file, DateTime.UtcNow.AddHours(-1));
            ProcessStartInfo start = new(
                "dotnet", ["exec", Path.Combine(AppContext.BaseDirectory, "leafscan.dll"), "walk", "add", folder, "--place", "Hill nursery", "--date", day, "--kind", "plant", "--data-dir", data])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            };
            using Process process = Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start.");
            Task<string> words = process.StandardOutput.ReadToEndAsync();
            string errors = await process.StandardError.ReadToEndAsync();
            await process.WaitForExitAsync();
            Assert.True(process.ExitCode == 0, await words + errors);
        }
    }
}
