using System.Net;
using LeafScan.Web.Api;

namespace LeafScan.Web.Safety;

/// <summary>
/// Answers only when it is asked for by a name of this machine. A page elsewhere can let its own name point here (DNS rebinding); the
/// browser then takes us for that page, but still sends that name.
/// </summary>
internal sealed class HostCheck(RequestDelegate next, ServerOptions options)
{
    private readonly HashSet<string> _names = new(options.Lan ? options.LanNames : [], StringComparer.OrdinalIgnoreCase);

    public Task InvokeAsync(HttpContext context) => IsOurs(context.Request.Host) ? next(context) : Problem.Of(
        StatusCodes.Status421MisdirectedRequest, "This server was asked for under a name that is not its own.", "Nothing was changed. Open the address that leafscan serve shows.")
        .ExecuteAsync(context);

    private bool IsOurs(HostString host) => host.HasValue && (IsLoopback(host) || _names.Contains(host.Host));

    public static bool IsLoopback(HostString host)
        => host.Host.Equals("localhost", StringComparison.OrdinalIgnoreCase)
            || (IPAddress.TryParse(host.Host.Trim('[', ']'), out IPAddress? address) && IPAddress.IsLoopback(address) && host.Host is "127.0.0.1" or "[::1]");
}
