using System.Security.Cryptography;
using Microsoft.Playwright;

namespace LeafScan.Page.Tests.Support;

/// <summary>One browser for all tests, and one server with a plant that was seen in two months.</summary>
public sealed class Garden : IAsyncLifetime
{
    private IPlaywright? _playwright;
    private RunningServer? _server;

    internal IBrowser Browser { get; private set; } = null!;

    internal string Address => _server!.Address;

    public async Task InitializeAsync()
    {
        if (Chromium.Path is null)
        {
            return;
        }

        Task<RunningServer> server = SeededAsync();
        _playwright = await Playwright.CreateAsync();
        Browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Chromium.Path,
            // As root Chromium runs without its sandbox or not at all; nothing outside this machine is asked for.
            Args = ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--no-first-run"],
        });
        _server = await server;
    }

    public async Task DisposeAsync()
    {
        if (Browser is not null)
        {
            await Browser.DisposeAsync();
        }

        _playwright?.Dispose();
        if (_server is not null)
        {
            await _server.DisposeAsync();
        }
    }

    /// <summary>A page that fails the test when its console tells of an error, such as one against the content policy.</summary>
    internal async Task<Visit> VisitAsync(string? address = null, int width = 360, int height = 740, ColorScheme scheme = ColorScheme.Light)
    {
        IBrowserContext context = await Browser.NewContextAsync(new BrowserNewContextOptions
        {
            BaseURL = address ?? Address,
            ViewportSize = new ViewportSize { Width = width, Height = height },
            ColorScheme = scheme,
            ReducedMotion = ReducedMotion.Reduce,
        });
        context.SetDefaultTimeout(30_000);
        return new Visit(context, await context.NewPageAsync());
    }

    /// <summary>Runs a command on the record of the server.</summary>
    internal Task WriteAsync(params string[] words) => _server!.RunBesideAsync(words);

    private static async Task<RunningServer> SeededAsync()
    {
        RunningServer server = await RunningServer.StartAsync();
        using HttpClient http = new() { BaseAddress = new Uri(server.Address) };
        http.DefaultRequestHeaders.Add("X-LeafScan", "1");
        foreach (string day in (string[])["2026-07-02", "2026-08-03"])
        {
            long walk = await Json.NumberAsync(await http.PostAsync("/api/walks", Json.Of($$"""{"place":"Hill <b>nursery</b>","date":"{{day}}"}""")), "id");
            foreach (string photo in SamplePhotos.Of(day, "B07", 2))
            {
                byte[] bytes = await File.ReadAllBytesAsync(photo);
                using ByteArrayContent content = new(bytes);
                (await http.PutAsync($"/api/walks/{walk}/photos/{Convert.ToHexStringLower(SHA256.HashData(bytes))}?name={Path.GetFileName(photo)}&folder=B07", content)).EnsureSuccessStatusCode();
            }
        }

        for (int round = 0; await Json.NumberAsync(await http.GetAsync("/api/state"), "waiting") > 0; round++)
        {
            Assert.True(round < 600, "The sample photos were not measured within two minutes.");
            await Task.Delay(200);
        }

        (await http.PutAsync("/api/plants/1", Json.Of("""{"block":"South bed","row":"1","position":"2","species":"Euonymus alatus"}"""))).EnsureSuccessStatusCode();
        (await http.PostAsync("/api/plants/1/care", Json.Of("""{"date":"2026-07-10","what":"rinse","note":"undersides"}"""))).EnsureSuccessStatusCode();
        (await http.PostAsync("/api/plants/1/taps", Json.Of("""{"date":"2026-08-03","mites":4,"strikes":3}"""))).EnsureSuccessStatusCode();
        await TapSheetAsync(http);
        return server;
    }

    // A sheet that was read and not kept with a plant: the pages of sheets can be looked at.
    private static async Task TapSheetAsync(HttpClient http)
    {
        using SampleTap tap = new(seed: 5, longSidePx: 1000);
        List<string> prints = [];
        foreach (string photo in (string[])[tap.First, tap.Second])
        {
            byte[] bytes = await File.ReadAllBytesAsync(photo);
            prints.Add(Convert.ToHexStringLower(SHA256.HashData(bytes)));
            using ByteArrayContent content = new(bytes);
            (await http.PutAsync($"/api/taps/photos/{prints[^1]}", content)).EnsureSuccessStatusCode();
        }

        (await http.PostAsync("/api/taps/read", Json.Of($$"""{"first":"{{prints[0]}}","second":"{{prints[1]}}"}"""))).EnsureSuccessStatusCode();
    }
}

/// <summary>All browser tests share one browser and run one after the other.</summary>
[CollectionDefinition(Name)]
public sealed class GardenTests : ICollectionFixture<Garden>
{
    public const string Name = "garden";
}
