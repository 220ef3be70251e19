using System.Globalization;
using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;
using UglyToad.PdfPig;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>The whole way of one person: empty start, a walk's photos, a correction, the series, months, a rinse, the verdict, paper.</summary>
[Collection(GardenTests.Name)]
public sealed class StoryTests(Garden garden, ITestOutputHelper output)
{
    // LEAFSCAN_PAGE_PHOTOS=30 tells the story with as many photos of all three plants.
    private static readonly int Wanted = int.TryParse(Environment.GetEnvironmentVariable("LEAFSCAN_PAGE_PHOTOS"), NumberStyles.None, CultureInfo.InvariantCulture, out int count) ? count : 10;

    [BrowserFact]
    public async Task From_an_empty_start_to_a_printed_verdict()
    {
        await using RunningServer server = await RunningServer.StartAsync();
        await using Visit visit = await garden.VisitAsync(server.Address);
        IPage page = visit.Page;

        await visit.OpenAsync("/");
        await Expect(page.Locator("h1")).ToHaveTextAsync("Welcome. Start with one leaf.");
        await page.GetByLabel("Place").FillAsync("Larkmere");
        await page.EvaluateAsync(LongFrames);
        (string file, string folder)[] photos = Photos();
        await DropAsync(page, photos);

        await Expect(page.Locator("#sending")).ToContainTextAsync($"All {photos.Length} here. Safe to walk away", new() { Timeout = 60_000 });
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("1 file left out, not a photo: notes.txt");
        await Expect(page.Locator(".card .word.good")).ToHaveCountAsync(photos.Length, new() { Timeout = 12_000 * photos.Length });
        await Expect(page.Locator("main")).ToContainTextAsync($"All {photos.Length} answered.");
        double frame = await page.EvaluateAsync<double>("globalThis.longestFrame");
        output.WriteLine($"{photos.Length} photos; the page's longest frame was {frame:0} ms.");
        Assert.True(frame < 1000, $"The page stood still for {frame} ms.");

        // Dropped again: named, and nothing is stored twice.
        await page.GetByText("Put this line away").ClickAsync();
        await DropAsync(page, photos[..2]);
        await Expect(page.Locator("#sending")).ToContainTextAsync("2 were here already");
        await page.Locator("#sending summary").ClickAsync();
        await Expect(page.Locator("#sending")).ToContainTextAsync($"{Path.GetFileName(photos[0].file)} is the same as");

        // One is put right: not a leaf, and back again.
        await page.GetByRole(AriaRole.Link, new() { Name = "Plants", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "B07" }).First.ClickAsync();
        await Expect(page.Locator("#verdict")).Not.ToBeEmptyAsync();
        await page.Locator(".strip a").First.ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Not a leaf" }).ClickAsync();
        await Expect(page.Locator("main")).ToContainTextAsync("No leaf was found on this photo.", new() { Timeout = 30_000 });
        await Expect(page.Locator("main")).ToContainTextAsync("Put right before");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.Locator("main table")).ToContainTextAsync("Stippled", new() { Timeout = 30_000 });

        // The series with its two visits; a rinse in one touch.
        await page.GetByRole(AriaRole.Link, new() { Name = "Plant B07" }).ClickAsync();
        await Expect(page.Locator("svg.chart .dot")).ToHaveCountAsync(2);
        await Expect(page.Locator("table tbody tr")).ToHaveCountAsync(2);
        await page.GetByRole(AriaRole.Button, new() { Name = "Rinse" }).ClickAsync();
        await Expect(page.Locator("svg.chart .care-sign")).ToHaveCountAsync(1);
        await Expect(page.Locator("#undo")).ToContainTextAsync("Rinse noted for B07.");

        // Months: the sample plant B07 was left untreated and its truth is a clear rise (sample-images/scenario.json).
        await page.GetByRole(AriaRole.Link, new() { Name = "Months", Exact = true }).ClickAsync();
        ILocator row = page.Locator("tbody tr", new() { HasText = "B07" });
        await Expect(row).ToContainTextAsync("more damage");
        await Expect(row).ToContainTextAsync("5 leaves");

        // The verdict, and paper.
        await row.GetByRole(AriaRole.Link).ClickAsync();
        await Expect(page.Locator("#verdict .word")).ToBeVisibleAsync();
        string verdict = await page.Locator("#verdict").InnerTextAsync();
        byte[] pdf = await page.PdfAsync(new() { Format = "A4" });
        using PdfDocument paper = PdfDocument.Open(pdf);
        string text = string.Join(' ', paper.GetPages().Select(one => one.Text));
        Assert.Contains(verdict.Replace(" ", "", StringComparison.Ordinal), text.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.DoesNotContain("Print this page", text, StringComparison.Ordinal);
        Assert.Empty(visit.Troubles);
    }

    private static (string File, string Folder)[] Photos()
    {
        if (Wanted <= 10)
        {
            return [.. ((string[])["2026-07-02", "2026-08-03"]).SelectMany(day => SamplePhotos.Of(day, "B07", 5).Select(file => (file, "B07")))];
        }

        return [.. ((string[])["B07", "B03", "K12"]).SelectMany(plant =>
            ((string[])["2026-07-02", "2026-08-03"]).SelectMany(day => SamplePhotos.Of(day, plant, 5).Select(file => (file, plant)))).Take(Wanted)];
    }

    // A drop of a folder as the browser hands it over: files with paths, and one that is no photo.
    private static async Task DropAsync(IPage page, (string File, string Folder)[] photos)
    {
        var files = photos.Select((photo, i) => new { name = Path.GetFileName(photo.File), path = $"{photo.Folder}/{i}", bytes = Convert.ToBase64String(File.ReadAllBytes(photo.File)) }).ToArray();
        await page.EvaluateAsync(
            """
            files => {
              const entry = (name, read) => ({ isFile: true, isDirectory: false, name, file: take => take(read()) });
              const folders = new Map();
              for (const { name, path, bytes } of files) {
                const [folder] = path.split("/");
                const file = () => new File([Uint8Array.from(atob(bytes), letter => letter.charCodeAt(0))], name, { type: "image/jpeg" });
                folders.set(folder, [...(folders.get(folder) ?? []), entry(name, file)]);
              }
              const folder = (name, entries) => ({ isFile: false, isDirectory: true, name, createReader: () => { const parts = [entries, []]; return { readEntries: take => take(parts.shift()) }; } });
              const items = [...folders].map(([name, entries]) => folder(name, entries));
              items.push(entry("notes.txt", () => new File(["words"], "notes.txt", { type: "text/plain" })), entry("Thumbs.db", () => new File(["x"], "Thumbs.db")));
              const event = new Event("drop", { bubbles: true, cancelable: true });
              event.dataTransfer = { types: ["Files"], items: items.map(one => ({ webkitGetAsEntry: () => one })) };
              document.querySelector(".drop").dispatchEvent(event);
            }
            """, files);
    }

    private const string LongFrames =
        """
        () => {
          globalThis.longestFrame = 0;
          let last = performance.now();
          const look = now => { globalThis.longestFrame = Math.max(globalThis.longestFrame, now - last); last = now; requestAnimationFrame(look); };
          requestAnimationFrame(now => { last = now; look(now); });
        }
        """;
}
