using System.Net;
using LeafScan.Web.Api;

namespace LeafScan.Web.Safety;

/// <summary>With --lan: whoever is not at this machine must have paired. What the pairing page itself needs is open.</summary>
internal sealed class PairingCheck(RequestDelegate next, ServerOptions options, Doorkeeper doorkeeper)
{
    public Task InvokeAsync(HttpContext context)
    {
        if (!options.Lan || IsAtThisMachine(context) || IsOpenToAll(context.Request) || doorkeeper.Knows(context.Request.Cookies[Doorkeeper.CookieName]))
        {
            return next(context);
        }

        if (HttpMethods.IsGet(context.Request.Method) && !context.Request.Path.StartsWithSegments("/api") && !context.Request.Path.StartsWithSegments("/openapi"))
        {
            context.Response.Redirect("/pair");
            return Task.CompletedTask;
        }

        return Problem.Of(
            StatusCodes.Status401Unauthorized, "This device is not paired.", "Nothing was changed. Scan the code that leafscan serve shows, or type it on the page /pair.").ExecuteAsync(context);
    }

    /// <summary>Whether the request comes from the machine itself, under a name that only means the machine itself.</summary>
    public static bool IsAtThisMachine(HttpContext context)
        => HostCheck.IsLoopback(context.Request.Host) && context.Connection.RemoteIpAddress is var from && (from is null || IPAddress.IsLoopback(from));

    // Pages hold nothing of the record: everything they show they ask the interface for.
    private static bool IsOpenToAll(HttpRequest request)
        => request.Path.Equals("/pair", StringComparison.OrdinalIgnoreCase) || request.Path.Equals("/api/pair", StringComparison.OrdinalIgnoreCase)
            || (HttpMethods.IsGet(request.Method) && Pages.PageFiles.IsPart(request.Path));
}
