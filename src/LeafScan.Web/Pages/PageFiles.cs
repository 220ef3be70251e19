using System.Reflection;
using System.Security.Cryptography;
using LeafScan.Web.Api;
using Microsoft.Net.Http.Headers;

namespace LeafScan.Web.Pages;

/// <summary>
/// The pages with their parts, from inside the program: a name from outside is only ever looked up in a list and never reaches a disk.
/// "/plant/12" is the page plant.html, "/" is index.html; a page without a file of its own is index.html too.
/// </summary>
internal static class PageFiles
{
    private const string Prefix = "pages/";

    private static readonly string[] PageNames = ["walk", "plants", "plant", "photo", "compare", "block", "next", "settings", "pair", "tap", "notes", "help"];

    private static readonly Dictionary<string, string> Kinds = new(StringComparer.Ordinal)
    {
        [".html"] = "text/html; charset=utf-8",
        [".css"] = "text/css; charset=utf-8",
        [".js"] = "text/javascript; charset=utf-8",
        [".svg"] = "image/svg+xml",
        [".png"] = "image/png",
        [".jpg"] = "image/jpeg",
        [".ico"] = "image/x-icon",
        [".json"] = "application/json",
        [".webmanifest"] = "application/manifest+json",
        [".txt"] = "text/plain; charset=utf-8",
        [".woff2"] = "font/woff2",
    };

    private static readonly Dictionary<string, PageFile> All = Load();

    /// <summary>Whether a path is a part of the pages, such as a script; not a page itself.</summary>
    public static bool IsPart(PathString path) => All.TryGetValue(Name(path), out PageFile? file) && !file.Kind.StartsWith("text/html", StringComparison.Ordinal);

    /// <summary>Answers with a page or a part of one.</summary>
    public static Task AnswerAsync(HttpContext context)
    {
        if (!HttpMethods.IsGet(context.Request.Method) && !HttpMethods.IsHead(context.Request.Method))
        {
            return Problem.Of(StatusCodes.Status405MethodNotAllowed, "This address can only be read.", "Nothing was changed.").ExecuteAsync(context);
        }

        if (Find(context.Request.Path) is not { } file)
        {
            return Problem.Of(StatusCodes.Status404NotFound, "There is no such page.", "Nothing was changed. Begin again at the address /.").ExecuteAsync(context);
        }

        // Asked again each time, sent again only when the program changed.
        context.Response.Headers.CacheControl = "no-cache";
        return TypedResults.Bytes(file.Bytes, file.Kind, entityTag: file.Tag).ExecuteAsync(context);
    }

    private static PageFile? Find(PathString path)
    {
        string name = Name(path);
        if (name.Length == 0)
        {
            return All.GetValueOrDefault("index.html");
        }

        if (All.TryGetValue(name, out PageFile? part))
        {
            return part;
        }

        // No page has a dot in its address; what does, asks for a file that is not here.
        string first = name.Contains('.', StringComparison.Ordinal) ? "" : name.Split('/')[0];
        return PageNames.Contains(first, StringComparer.Ordinal) ? All.GetValueOrDefault(first + ".html") ?? All.GetValueOrDefault("index.html") : null;
    }

    private static string Name(PathString path) => (path.Value ?? "").TrimStart('/');

    private static Dictionary<string, PageFile> Load()
    {
        Assembly here = typeof(PageFiles).Assembly;
        Dictionary<string, PageFile> files = new(StringComparer.Ordinal);
        foreach (string resource in here.GetManifestResourceNames().Where(name => name.StartsWith(Prefix, StringComparison.Ordinal)))
        {
            if (!Kinds.TryGetValue(Path.GetExtension(resource), out string? kind))
            {
                continue;
            }

            using Stream stream = here.GetManifestResourceStream(resource)!;
            byte[] bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            files[resource[Prefix.Length..].Replace('\\', '/')] = new PageFile(
                bytes, kind, new EntityTagHeaderValue($"\"{Convert.ToHexStringLower(SHA256.HashData(bytes))[..20]}\""));
        }

        return files;
    }

    private sealed record PageFile(byte[] Bytes, string Kind, EntityTagHeaderValue Tag);
}
