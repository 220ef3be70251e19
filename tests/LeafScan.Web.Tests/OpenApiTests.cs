using System.Text.Json;
using LeafScan.Web.Tests.Support;
using Microsoft.OpenApi;
using Microsoft.OpenApi.Reader;

namespace LeafScan.Web.Tests;

/// <summary>The description of the interface, read by the reader of the OpenAPI project itself (Microsoft.OpenApi).</summary>
public sealed class OpenApiTests
{
    [Fact]
    public async Task The_document_is_valid_and_describes_every_address()
    {
        await using TestPage page = new();
        await using Stream stream = await page.Client.GetStreamAsync(new Uri("/openapi/v1.json", UriKind.Relative));
        using MemoryStream copy = new();
        await stream.CopyToAsync(copy);
        copy.Position = 0;
        ReadResult read = await OpenApiDocument.LoadAsync(copy, "json");
        Assert.Empty(read.Diagnostic!.Errors);
        Assert.Equal("LeafScan", read.Document!.Info.Title);
        string[] operations = [.. read.Document.Paths.SelectMany(path => path.Value.Operations!.Keys.Select(method => $"{method.Method} {path.Key}"))];
        string[] wanted =
        [
            "GET /api/state", "GET /api/plants", "POST /api/plants", "GET /api/plants/{id}", "PUT /api/plants/{id}", "GET /api/plants/{id}/chart.svg", "PUT /api/plants/{id}/healthy", "DELETE /api/plants/{id}/healthy", "GET /api/plants/{id}/views", "GET /api/plants/{id}/views/picture", "GET /api/walks", "POST /api/walks",
            "GET /api/walks/{id}", "PUT /api/walks/{id}/photos/{sha256}", "HEAD /api/walks/{id}/photos/{sha256}", "GET /api/events", "GET /api/photos/{id}", "GET /api/photos/{id}/picture",
            "GET /api/photos/{id}/overlay", "GET /api/photos/{id}/thumb", "PUT /api/photos/{id}/plant", "PUT /api/photos/{id}/leaf", "POST /api/photos/{id}/leaves/{index}/correction",
            "DELETE /api/photos/{id}", "POST /api/undo", "POST /api/plants/{id}/care", "POST /api/plants/{id}/taps", "PUT /api/care/{id}", "DELETE /api/care/{id}", "PUT /api/taps/{id}", "DELETE /api/taps/{id}", "PUT /api/taps/photos/{sha256}",
            "POST /api/taps/read", "GET /api/taps/sheets/{id}", "POST /api/taps/sheets/{id}/specks", "GET /api/taps/sheets/{id}/first", "GET /api/taps/sheets/{id}/second", "GET /api/taps/sheets/{id}/overlay", "GET /api/compare", "GET /api/blocks", "GET /api/next", "GET /api/settings", "PUT /api/settings", "POST /api/backup",
            "GET /api/plants/{id}/note", "GET /api/plants/{id}/note/pages", "GET /api/plants/{id}/note/pdf", "GET /api/plants/{id}/note/html", "GET /api/plants/{id}/note/picture", "PUT /api/plants/{id}/note/parts/{part}",
            "GET /api/places/{id}/note", "GET /api/places/{id}/note/pages", "GET /api/places/{id}/note/pdf", "GET /api/places/{id}/note/html", "GET /api/places/{id}/note/picture", "PUT /api/places/{id}/note/parts/{part}",
            "GET /api/notes/sender", "PUT /api/notes/sender", "GET /api/series.csv", "GET /api/pair", "GET /api/pair/qr.svg", "POST /api/pair",
        ];
        Assert.Empty(wanted.Except(operations));
        Assert.Empty(operations.Except(wanted));
    }

    [Fact]
    public async Task Everything_that_writes_names_the_header_it_needs_and_every_reference_leads_somewhere()
    {
        await using TestPage page = new();
        JsonElement document = await page.GetAsync("/openapi/v1.json");
        foreach (JsonProperty path in document.GetProperty("paths").EnumerateObject())
        {
            foreach (JsonProperty operation in path.Value.EnumerateObject())
            {
                Assert.True(operation.Value.TryGetProperty("summary", out _), $"{operation.Name} {path.Name} has no summary");
                bool names = operation.Value.TryGetProperty("parameters", out JsonElement parameters)
                    && parameters.EnumerateArray().Any(parameter => parameter.GetProperty("name").GetString() == "X-LeafScan");
                Assert.Equal(operation.Name is not ("get" or "head"), names);
            }
        }

        foreach (string reference in References(document))
        {
            JsonElement at = document;
            foreach (string step in reference[2..].Split('/'))
            {
                Assert.True(at.TryGetProperty(step, out at), reference);
            }
        }
    }

    private static IEnumerable<string> References(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().SelectMany(property =>
            property.Name == "$ref" && property.Value.ValueKind == JsonValueKind.String ? [property.Value.GetString()!] : References(property.Value)),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(References),
        _ => [],
    };
}
