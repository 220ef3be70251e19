using System.Diagnostics;
using System.Globalization;
using LeafScan.Page.Tests.Support;
using Microsoft.Playwright;
using OpenCvSharp;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace LeafScan.Page.Tests;

/// <summary>
/// A walk of forty photos of twelve megapixels, dropped at once: how long a person waits, whether the page stands still, what the server
/// takes. Long, so only when asked for: LEAFSCAN_FORTY=40 (or fewer) in the environment, and the figures are printed.
/// </summary>
[Collection(GardenTests.Name)]
public sealed class FortyPhotosTests(Garden garden, ITestOutputHelper output)
{
    private const int WidthPx = 4000, HeightPx = 3000;

    private static readonly int Wanted = int.TryParse(Environment.GetEnvironmentVariable("LEAFSCAN_FORTY"), NumberStyles.None, CultureInfo.InvariantCulture, out int count) ? count : 0;

    [BrowserFact]
    public async Task Many_large_photos_are_answered_while_the_page_can_be_used()
    {
        if (Wanted == 0)
        {
            output.WriteLine("Skipped: takes minutes. Set LEAFSCAN_FORTY=40.");
            return;
        }

        DirectoryInfo folder = Directory.CreateTempSubdirectory("leafscan-forty-");
        try
        {
            string[] photos = Photos(folder.FullName);
            await using RunningServer server = await RunningServer.StartAsync();
            await using Visit visit = await garden.VisitAsync(server.Address, 1280, 800);
            IPage page = visit.Page;
            await visit.OpenAsync("/");
            await page.GetByLabel("Place").FillAsync("Larkmere");
            await page.EvaluateAsync(Watch);
            await page.Locator("input[name=photos]").SetInputFilesAsync(photos);
            await page.WaitForFunctionAsync("() => globalThis.watched.answered > 0", null, new() { Timeout = 120_000 });

            // While photos are sent and measured, a person goes on working: how long until another page stands.
            Stopwatch turning = Stopwatch.StartNew();
            await page.GetByRole(AriaRole.Link, new() { Name = "Plants", Exact = true }).ClickAsync();
            await Expect(page.Locator("h1")).ToHaveTextAsync("Plants");
            double turned = turning.Elapsed.TotalMilliseconds;
            await page.GetByRole(AriaRole.Link, new() { Name = "Today", Exact = true }).ClickAsync();
            await page.WaitForFunctionAsync($"() => globalThis.watched.answered >= {Wanted}", null, new() { Timeout = 60_000f * Wanted });
            double[] seen = await page.EvaluateAsync<double[]>("() => [watched.first, watched.sent, watched.last, watched.frame, watched.frames]");
            long bytes = photos.Sum(photo => new FileInfo(photo).Length);
            output.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"""
                photos                        {photos.Length} of {WidthPx} x {HeightPx}, {bytes / 1e6:0} MB; {Environment.ProcessorCount} processors, load average {File.ReadAllText("/proc/loadavg").Split(' ')[0]}
                first answer after            {seen[0] / 1000:0.0} s
                all received after            {seen[1] / 1000:0.0} s
                last answer after             {seen[2] / 1000:0.0} s
                longest frame of the page     {seen[3]:0} ms ({seen[4]:0} frames of 200 ms or more)
                another page while measuring  {turned:0} ms
                most memory of the server     {server.PeakBytes / 1e6:0} MB; in use at the end {server.UsedBytes / 1e6:0} MB
                """));
            Assert.True(seen[3] < 2000, $"The page stood still for {seen[3]} ms.");
            Assert.Empty(visit.Troubles);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    // Sample leaves enlarged, with noise of their own each, so that every file is other and as heavy to decode as a phone's.
    private static string[] Photos(string folder)
    {
        string[] samples = [.. ((string[])["2026-07-02", "2026-08-03"]).SelectMany(day => Directory.EnumerateFiles(SamplePhotos.Walk(day), "*.jpg", SearchOption.AllDirectories)).Order(StringComparer.Ordinal)];
        return [.. Enumerable.Range(0, Wanted).Select(i =>
        {
            string path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"IMG_{i + 1:0000}.jpg"));
            using Mat small = Cv2.ImRead(samples[i % samples.Length]);
            using Mat large = new();
            Cv2.Resize(small, large, new Size(WidthPx, HeightPx), 0, 0, InterpolationFlags.Cubic);
            using Mat noise = new(large.Size(), MatType.CV_16SC3);
            Cv2.SetTheRNG((ulong)(i + 1));
            Cv2.Randn(noise, Scalar.All(0), Scalar.All(2));
            using Mat noisy = new();
            Cv2.Add(large, noise, noisy, null, MatType.CV_8U);
            Cv2.ImWrite(path, noisy, new ImageEncodingParam(ImwriteFlags.JpegQuality, 96));
            return path;
        })];
    }

    // Counts answers by the server's own events, on whichever page the person is; frames by the browser's clock.
    private const string Watch =
        """
        () => {
          const begun = performance.now();
          const watched = globalThis.watched = { answered: 0, first: 0, last: 0, sent: 0, frame: 0, frames: 0 };
          const source = new EventSource("/api/events");
          const known = new Set();
          source.addEventListener("photo", event => {
            const photo = JSON.parse(event.data);
            if (photo.state !== "measured" && photo.state !== "refused" || known.has(photo.sha256)) return;
            known.add(photo.sha256);
            watched.answered = known.size;
            watched.last = performance.now() - begun;
            watched.first ||= watched.last;
          });
          let last = begun;
          const look = now => {
            const took = now - last;
            watched.frame = Math.max(watched.frame, took);
            if (took >= 200) watched.frames++;
            last = now;
            if (!watched.sent && document.getElementById("sending").textContent.includes("Safe to walk away")) watched.sent = now - begun;
            requestAnimationFrame(look);
          };
          requestAnimationFrame(now => { last = now; look(now); });
        }
        """;
}
