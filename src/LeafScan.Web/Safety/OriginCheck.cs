using LeafScan.Web.Api;

namespace LeafScan.Web.Safety;

/// <summary>
/// Refuses what a foreign page sends. Writing needs a header of our own, which no foreign form or image can send, and an origin
/// that is this server; reading the interface is refused to foreign pages as well.
/// </summary>
internal sealed class OriginCheck(RequestDelegate next)
{
    public const string HeaderName = "X-LeafScan";

    public Task InvokeAsync(HttpContext context)
    {
        HttpRequest request = context.Request;
        bool writes = !HttpMethods.IsGet(request.Method) && !HttpMethods.IsHead(request.Method);
        bool isForeign = IsForeign(request, writes);
        if (!isForeign && (!writes || request.Headers[HeaderName] == "1"))
        {
            return next(context);
        }

        return Problem.Of(
            StatusCodes.Status403Forbidden,
            isForeign ? "The request comes from another page." : $"The header {HeaderName} is missing.",
            isForeign ? "Nothing was changed. Use the page that leafscan serve shows." : $"Nothing was changed. Send {HeaderName}: 1 with everything that writes.")
            .ExecuteAsync(context);
    }

    private static bool IsForeign(HttpRequest request, bool writes)
    {
        string site = request.Headers["Sec-Fetch-Site"].ToString();

        // A link from elsewhere to a page is fine; a foreign page that reads the interface is not.
        if ((writes || request.Path.StartsWithSegments("/api")) && site is "cross-site" or "same-site")
        {
            return true;
        }

        string origin = request.Headers.Origin.ToString();
        return origin.Length > 0 && !origin.Equals($"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
    }
}
