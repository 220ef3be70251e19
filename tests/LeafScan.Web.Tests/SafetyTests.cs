using System.Net;
using System.Text;
using System.Text.Json;
using LeafScan.Records;
using LeafScan.Web.Tests.Support;
using Microsoft.AspNetCore.Http;

namespace LeafScan.Web.Tests;

/// <summary>Attacks, each refused or made harmless.</summary>
public sealed class SafetyTests
{
    [Theory]
    [InlineData("attacker.example")]
    [InlineData("attacker.example:8470")]
    [InlineData("127.0.0.1.attacker.example")]
    [InlineData("localhost.attacker.example")]
    [InlineData("10.0.0.7")]
    public async Task A_foreign_name_in_Host_is_refused_so_that_DNS_rebinding_reads_nothing(string host)
    {
        await using TestPage page = new();
        using HttpResponseMessage answer = await page.SendAsync(HttpMethod.Get, "/api/state", null, ("Host", host));
        await TestPage.ProblemOf(answer, 421);
    }

    [Theory]
    [InlineData("localhost:8470")]
    [InlineData("127.0.0.1:8470")]
    [InlineData("[::1]:8470")]
    public async Task The_machines_own_names_are_answered(string host)
    {
        await using TestPage page = new();
        using HttpResponseMessage answer = await page.SendAsync(HttpMethod.Get, "/api/state", null, ("Host", host));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Theory]
    [InlineData("Origin", "http://attacker.example")]
    [InlineData("Origin", "null")]
    [InlineData("Origin", "http://localhost:9999")]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    [InlineData("X-LeafScan", "")]
    public async Task What_another_page_sends_changes_nothing(string header, string value)
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        using HttpResponseMessage care = await page.SendAsync(HttpMethod.Post, "/api/plants/1/care", new { what = "miticide" }, (header, value));
        await TestPage.ProblemOf(care, 403);
        using HttpResponseMessage bin = await page.SendAsync(HttpMethod.Delete, "/api/photos/1", null, (header, value));
        await TestPage.ProblemOf(bin, 403);
        Assert.Single(page.Store.CareOfPlant(1));
        Assert.Equal(3, page.Store.Photos().Count);
    }

    [Fact]
    public async Task Another_page_cannot_read_the_interface_either_but_a_link_to_a_page_works()
    {
        await using TestPage page = new();
        using HttpResponseMessage read = await page.SendAsync(HttpMethod.Get, "/api/plants", null, ("Sec-Fetch-Site", "cross-site"));
        await TestPage.ProblemOf(read, 403);
        using HttpResponseMessage link = await page.SendAsync(HttpMethod.Get, "/plants", null, ("Sec-Fetch-Site", "cross-site"));
        Assert.Equal(HttpStatusCode.OK, link.StatusCode);
        Assert.False(link.Headers.Contains("Access-Control-Allow-Origin"));
    }

    [Fact]
    public async Task Every_answer_forbids_foreign_scripts_guessing_framing_and_keeping()
    {
        await using TestPage page = new();
        foreach (string address in new[] { "/", "/api/state", "/api/nothing", "/openapi/v1.json" })
        {
            using HttpResponseMessage answer = await page.SendAsync(HttpMethod.Get, address);
            string policy = string.Join(' ', answer.Headers.GetValues("Content-Security-Policy"));
            Assert.StartsWith("default-src 'self'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", string.Concat(answer.Headers.GetValues("X-Content-Type-Options")));
            Assert.Equal("DENY", string.Concat(answer.Headers.GetValues("X-Frame-Options")));
        }
    }

    [Theory]
    [InlineData("/../../../../etc/passwd")]
    [InlineData("/..%2f..%2f..%2fetc/passwd")]
    [InlineData("/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/pages/index.html")]
    [InlineData("/plant/../../leafscan.db")]
    [InlineData("/leafscan.db")]
    public async Task No_address_reaches_a_file_on_the_disk(string path)
    {
        await using TestPage page = new();
        HttpContext context = await page.Server.SendAsync(request =>
        {
            request.Request.Method = "GET";
            request.Request.Host = new HostString("localhost");
            request.Request.Path = new PathString(Uri.UnescapeDataString(path));
        });
        Assert.Equal(404, context.Response.StatusCode);
    }

    [Fact]
    public async Task Names_with_dots_and_slashes_stay_labels_and_no_file_lies_outside_the_photo_folder()
    {
        await using TestPage page = new();
        byte[] bytes = Encoding.UTF8.GetBytes("no photo at all");
        long walk = (await page.DoAsync(HttpMethod.Post, "/api/walks", new { place = "Hill" })).GetProperty("id").GetInt64();
        string name = Uri.EscapeDataString("../../../../tmp/evil\u0000.jpg");
        string folder = Uri.EscapeDataString("..\\..\\/etc/./cron.d");
        using HttpResponseMessage sent = await page.PutPhotoAsync(walk, bytes, $"name={name}&folder={folder}");
        Assert.Equal(HttpStatusCode.Accepted, sent.StatusCode);
        await page.UntilMeasuredAsync();
        UploadOnRecord upload = page.Store.FindUpload(walk, Some.Sha(bytes))!;
        Assert.Equal("evil.jpg", upload.Upload.FileName);
        Assert.Equal("etc/cron.d", upload.Upload.Folder);
        Assert.Equal($"photos/2026-08-04/{Some.Sha(bytes)}.bin", upload.Upload.StoredAs);
        Assert.Equal(UploadState.Refused, upload.State);
        Assert.False(File.Exists("/tmp/evil.jpg"));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_photo_over_the_limit_is_refused_in_words_and_leaves_nothing_behind(bool tellsLength)
    {
        await using TestPage page = new(largestPhoto: 1000);
        long walk = (await page.DoAsync(HttpMethod.Post, "/api/walks", new { place = "Hill" })).GetProperty("id").GetInt64();
        byte[] bytes = new byte[100_000];
        using StreamContent content = new(new MemoryStream(bytes));
        content.Headers.ContentLength = tellsLength ? bytes.Length : null;
        using HttpResponseMessage answer = await page.SendAsync(HttpMethod.Put, $"/api/walks/{walk}/photos/{Some.Sha(bytes)}?name=big.jpg", content);
        await TestPage.ProblemOf(answer, 413);
        Assert.Equal(new UploadCounts(0, 0, 0), page.Store.CountUploads());
        Assert.DoesNotContain(Directory.EnumerateFiles(page.Folder, "*", SearchOption.AllDirectories), file => file.EndsWith(".part", StringComparison.Ordinal) || file.Contains("photos", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_script_in_a_plants_name_comes_back_as_plain_text_only()
    {
        const string Script = "<script>alert(1)</script>";
        await using TestPage page = new();
        using HttpResponseMessage begun = await page.SendAsync(HttpMethod.Post, "/api/plants", new { code = "<b>\"&1", place = "Hill", name = Script });
        string text = await begun.Content.ReadAsStringAsync();
        Assert.DoesNotContain("<", text, StringComparison.Ordinal);
        Assert.Equal("application/json", begun.Content.Headers.ContentType?.MediaType);
        Assert.Equal(Script, JsonDocument.Parse(text).RootElement.GetProperty("name").GetString());
        long id = JsonDocument.Parse(text).RootElement.GetProperty("id").GetInt64();
        Some.Photo(page.Store, "Hill", new DateOnly(2026, 6, 10), "<b>\"&1", "a.jpg", 0.05);
        string svg = await page.Client.GetStringAsync(new Uri($"/api/plants/{id}/chart.svg", UriKind.Relative));
        Assert.DoesNotContain("<b>", svg, StringComparison.Ordinal);
        System.Xml.Linq.XElement.Parse(svg);
    }

    [Fact]
    public async Task A_formula_in_a_name_is_a_text_in_the_table_and_numbers_stay_numbers()
    {
        await using TestPage page = new();
        Some.Photo(page.Store, "Hill", new DateOnly(2026, 6, 10), "=1+1", "a.jpg", 0.05);
        Plant plant = page.Store.FindPlants("=1+1")[0];
        page.Store.DescribePlant(plant.Id, "@SUM(A1), \"quoted\"", null, "test");
        using HttpResponseMessage answer = await page.SendAsync(HttpMethod.Get, "/api/series.csv");
        Assert.Equal("text/csv", answer.Content.Headers.ContentType?.MediaType);
        string line = (await answer.Content.ReadAsStringAsync()).Split("\r\n")[1];
        Assert.StartsWith("Hill,'=1+1,\"'@SUM(A1), \"\"quoted\"\"\",,,,,2026-06-10,1,0,1,0.05,", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_body_far_too_long_for_words_is_refused()
    {
        await using TestPage page = new();
        using HttpResponseMessage answer = await page.SendAsync(HttpMethod.Post, "/api/walks", new { place = new string('x', 500) });
        await TestPage.ProblemOf(answer, 422);
        Assert.Empty(page.Store.Places());
    }
}
