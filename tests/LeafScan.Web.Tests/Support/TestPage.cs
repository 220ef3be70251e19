using System.Net.Http.Json;
using System.Text.Json;
using LeafScan.Photos;
using LeafScan.Records;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.Hosting;

namespace LeafScan.Web.Tests.Support;

/// <summary>A server without a socket over a record of its own, in a folder that goes when the test ends.</summary>
internal sealed class TestPage : IAsyncDisposable
{
    private readonly WebApplication _app;

    public TestPage(bool lan = false, long largestPhoto = 5_000_000)
    {
        Folder = Directory.CreateTempSubdirectory("leafscan-page-").FullName;
        Store = RecordStore.Open(Folder, Clock);
        ServerOptions options = new()
        {
            Lan = lan,
            LanNames = ["10.0.0.7", "desk.local"],
            Clock = Clock,
            Photos = new PhotoLimits { LargestFileBytes = largestPhoto },
            Log = fault =>
            {
                Faults.Add(fault);
                return null;
            },
        };
        _app = PageServer.Build(options, Store, builder => builder.WebHost.UseTestServer());
        _app.Start();
        Server = _app.GetTestServer();
        Client = _app.GetTestClient();
        Client.DefaultRequestHeaders.Add("X-LeafScan", "1");
    }

    public string Folder { get; }

    public TestClock Clock { get; } = new();

    public RecordStore Store { get; }

    public TestServer Server { get; }

    public HttpClient Client { get; }

    public List<Exception> Faults { get; } = [];

    public IServiceProvider Services => _app.Services;

    public async Task<JsonElement> GetAsync(string address)
    {
        using HttpResponseMessage answer = await Client.GetAsync(new Uri(address, UriKind.Relative));
        return await JsonOf(answer);
    }

    public Task<HttpResponseMessage> SendAsync(HttpMethod method, string address, object? body = null, params (string Name, string Value)[] headers)
    {
        HttpRequestMessage request = new(method, new Uri(address, UriKind.RelativeOrAbsolute)) { Content = body as HttpContent ?? (body is null ? null : JsonContent.Create(body)) };
        foreach ((string name, string value) in headers)
        {
            request.Headers.Remove(name);
            request.Headers.TryAddWithoutValidation(name, value);
        }

        return Client.SendAsync(request);
    }

    public async Task<JsonElement> DoAsync(HttpMethod method, string address, object? body = null)
    {
        using HttpResponseMessage answer = await SendAsync(method, address, body);
        return await JsonOf(answer);
    }

    public Task<HttpResponseMessage> PutPhotoAsync(long walk, byte[] bytes, string query, string? sha256 = null)
        => SendAsync(HttpMethod.Put, $"/api/walks/{walk}/photos/{sha256 ?? Some.Sha(bytes)}?{query}", new ByteArrayContent(bytes));

    public async Task UntilMeasuredAsync()
    {
        for (int i = 0; i < 1200 && Store.CountUploads().Waiting > 0; i++)
        {
            await Task.Delay(50);
        }

        Assert.Empty(Faults);
        Assert.Equal(0, Store.CountUploads().Waiting);
    }

    public static async Task<JsonElement> JsonOf(HttpResponseMessage answer)
    {
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, $"{(int)answer.StatusCode} {text}");
        return JsonDocument.Parse(text).RootElement;
    }

    /// <summary>The title of a problem, after checking that it is one as RFC 9457 has it.</summary>
    public static async Task<string> ProblemOf(HttpResponseMessage answer, int status)
    {
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True((int)answer.StatusCode == status, $"{(int)answer.StatusCode} {text}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        JsonElement problem = JsonDocument.Parse(text).RootElement;
        Assert.Equal(status, problem.GetProperty("status").GetInt32());
        Assert.NotEmpty(problem.GetProperty("detail").GetString()!);
        return problem.GetProperty("title").GetString()!;
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
        Store.Dispose();
        Directory.Delete(Folder, recursive: true);
    }
}

/// <summary>A clock that stands still until it is moved; its place is UTC.</summary>
internal sealed class TestClock : TimeProvider
{
    public DateTimeOffset Now { get; set; } = new(2026, 8, 4, 9, 0, 0, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => Now;

    public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;
}
