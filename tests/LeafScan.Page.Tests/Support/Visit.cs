using Microsoft.Playwright;

namespace LeafScan.Page.Tests.Support;

/// <summary>One person's look at the page.</summary>
internal sealed class Visit : IAsyncDisposable
{
    private readonly IBrowserContext _context;
    private readonly List<string> _troubles = [];

    public Visit(IBrowserContext context, IPage page)
    {
        _context = context;
        Page = page;
        page.PageError += (_, error) => _troubles.Add(error);
        page.Console += (_, message) =>
        {
            // A photo that cannot be drawn or a server that is away is told by the page itself; all else is a fault.
            if (message.Type == "error" && !message.Text.Contains("Failed to load resource", StringComparison.Ordinal))
            {
                _troubles.Add(message.Text);
            }
        };
    }

    public IPage Page { get; }

    /// <summary>Faults that the browser told of, such as something against the content policy.</summary>
    public IReadOnlyList<string> Troubles => _troubles;

    public async Task OpenAsync(string path)
    {
        await Page.GotoAsync(path);
        await Page.Locator("main h1").First.WaitForAsync();
    }

    /// <summary>Whether something is wider than the window, which makes a phone scroll sideways.</summary>
    public Task<bool> IsTooWideAsync() => Page.EvaluateAsync<bool>("document.documentElement.scrollWidth > innerWidth + 1");

    /// <summary>Presses Tab until what is wanted has the focus.</summary>
    public async Task TabToAsync(ILocator wanted)
    {
        await wanted.WaitForAsync();
        for (int presses = 0; presses < 120; presses++)
        {
            if (await wanted.EvaluateAsync<bool>("element => element === document.activeElement"))
            {
                return;
            }

            await Page.Keyboard.PressAsync("Tab");
        }

        Assert.Fail($"{wanted} cannot be reached with the Tab key.");
    }

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();
}
