using System.Text;
using System.Text.Json;

namespace LeafScan.Page.Tests.Support;

/// <summary>The little JSON that tests send and read.</summary>
internal static class Json
{
    public static StringContent Of(string text) => new(text, Encoding.UTF8, "application/json");

    public static async Task<long> NumberAsync(HttpResponseMessage answer, string name)
    {
        answer.EnsureSuccessStatusCode();
        using JsonDocument document = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
        return document.RootElement.GetProperty(name).GetInt64();
    }
}
