using System.Net;
using System.Text;
using System.Text.Json;
using LeafScan.Web.Safety;
using LeafScan.Web.Tests.Support;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.DependencyInjection;

namespace LeafScan.Web.Tests;

/// <summary>How a phone gets in with --lan, and how others do not.</summary>
public sealed class PairingTests
{
    private static readonly IPAddress Phone = IPAddress.Parse("10.0.0.20");

    [Fact]
    public async Task A_phone_sees_nothing_but_the_pairing_page_until_it_has_paired()
    {
        await using TestPage page = new(lan: true);
        Assert.Equal(401, (await SendAsync(page, "GET", "/api/plants")).Response.StatusCode);
        Assert.Equal(401, (await SendAsync(page, "GET", "/openapi/v1.json")).Response.StatusCode);
        HttpContext sent = await SendAsync(page, "GET", "/plants");
        Assert.Equal(302, sent.Response.StatusCode);
        Assert.Equal("/pair", sent.Response.Headers.Location);
        Assert.Equal(200, (await SendAsync(page, "GET", "/pair")).Response.StatusCode);
        Assert.Equal(403, (await SendAsync(page, "GET", "/api/pair")).Response.StatusCode);
        Assert.Equal(401, (await SendAsync(page, "GET", "/api/pair/qr.svg")).Response.StatusCode);

        HttpContext paired = await GuessAsync(page, CodeOf(page).ToLowerInvariant().Insert(4, " - "));
        Assert.Equal(204, paired.Response.StatusCode);
        string cookie = paired.Response.Headers.SetCookie.ToString();
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(200, (await SendAsync(page, "GET", "/api/plants", cookie.Split(';')[0])).Response.StatusCode);
        Assert.Equal(401, (await SendAsync(page, "GET", "/api/plants", "leafscan=" + new string('0', 64))).Response.StatusCode);
    }

    [Fact]
    public async Task Five_wrong_codes_in_a_row_lock_the_address_for_ten_minutes_even_for_the_right_code()
    {
        await using TestPage page = new(lan: true);
        for (int i = 0; i < Doorkeeper.WrongFromOne; i++)
        {
            Assert.Equal(403, (await GuessAsync(page, "WRONG" + i)).Response.StatusCode);
        }

        HttpContext locked = await GuessAsync(page, CodeOf(page));
        Assert.Equal(429, locked.Response.StatusCode);
        Assert.Equal("600", locked.Response.Headers.RetryAfter);
        Assert.Equal(0, locked.Response.Headers.SetCookie.Count);
        page.Clock.Now += TimeSpan.FromMinutes(11);
        Assert.Equal(204, (await GuessAsync(page, CodeOf(page))).Response.StatusCode);
    }

    [Fact]
    public void Guesses_from_many_addresses_lock_the_door_for_all()
    {
        TestClock clock = new();
        Doorkeeper doorkeeper = new(clock);
        for (int i = 0; i < Doorkeeper.WrongFromAll; i++)
        {
            Assert.Equal(GuessResult.Wrong, doorkeeper.Guess("nothing", $"10.0.1.{i}", out _));
        }

        Assert.Equal(GuessResult.Locked, doorkeeper.Guess(doorkeeper.Code, "10.0.2.1", out string? token));
        Assert.Null(token);
        clock.Now += Doorkeeper.Wait;
        Assert.Equal(GuessResult.Right, doorkeeper.Guess(doorkeeper.Code, "10.0.2.1", out token));
        Assert.True(doorkeeper.Knows(token));
        Assert.False(doorkeeper.Knows(null));
    }

    [Fact]
    public void Codes_are_long_enough_and_differ()
    {
        string[] codes = [.. Enumerable.Range(0, 50).Select(_ => new Doorkeeper(TimeProvider.System).Code)];
        Assert.Equal(50, codes.Distinct().Count());
        Assert.All(codes, code => Assert.Matches("^[A-HJ-NP-Z2-9]{8}$", code));
    }

    [Fact]
    public async Task The_machine_itself_needs_no_code_and_shows_it()
    {
        await using TestPage page = new(lan: true);
        JsonElement shown = await page.GetAsync("/api/pair");
        Assert.Equal(CodeOf(page), shown.GetProperty("code").GetString());
        Assert.StartsWith("http://10.0.0.7:", shown.GetProperty("link").GetString(), StringComparison.Ordinal);
        Assert.EndsWith("/pair#" + CodeOf(page), shown.GetProperty("link").GetString(), StringComparison.Ordinal);
        Assert.StartsWith("<svg", await page.Client.GetStringAsync(new Uri("/api/pair/qr.svg", UriKind.Relative)), StringComparison.Ordinal);
        Assert.Equal(200, (await SendAsync(page, "GET", "/api/plants", null, IPAddress.Loopback, "localhost")).Response.StatusCode);
    }

    [Fact]
    public async Task A_phone_that_calls_itself_localhost_is_still_a_phone()
    {
        await using TestPage page = new(lan: true);
        Assert.Equal(401, (await SendAsync(page, "GET", "/api/plants", null, Phone, "localhost")).Response.StatusCode);
    }

    private static string CodeOf(TestPage page) => page.Services.GetRequiredService<Doorkeeper>().Code;

    private static Task<HttpContext> GuessAsync(TestPage page, string code)
        => SendAsync(page, "POST", "/api/pair", null, Phone, "10.0.0.7", JsonSerializer.Serialize(new { code }));

    private static Task<HttpContext> SendAsync(TestPage page, string method, string path, string? cookie = null, IPAddress? from = null, string host = "10.0.0.7", string? body = null)
        => page.Server.SendAsync(context =>
        {
            context.Connection.RemoteIpAddress = from ?? Phone;
            context.Request.Method = method;
            context.Request.Scheme = "http";
            context.Request.Host = new HostString(host, 8470);
            context.Request.Path = path;
            context.Request.Headers["X-LeafScan"] = "1";
            if (cookie is not null)
            {
                context.Request.Headers.Cookie = cookie;
            }

            if (body is not null)
            {
                context.Request.ContentType = "application/json";
                context.Request.ContentLength = Encoding.UTF8.GetByteCount(body);
                context.Features.Set<IHttpRequestBodyDetectionFeature>(new HasBody());
                context.Request.Body = new MemoryStream(Encoding.UTF8.GetBytes(body));
            }
        });

    private sealed class HasBody : IHttpRequestBodyDetectionFeature
    {
        public bool CanHaveBody => true;
    }
}
