using LeafScan.Web.Safety;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>/api/pair: how a phone gets in with --lan.</summary>
internal static class PairingApi
{
    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder pair = api.MapGroup("/pair").WithTags("Pairing");
        pair.MapGet("", Show).WithSummary("The code and the link to scan; only at the machine itself.").ProducesProblem(403);
        pair.MapGet("/qr.svg", Picture).WithSummary("The link as QR code; only at the machine itself.").Produces(200, contentType: "image/svg+xml").ProducesProblem(403);
        pair.MapPost("", Pair).WithSummary("Pairs this device: sets its cookie.").ProducesProblem(403).ProducesProblem(429);
    }

    private static Results<Ok<PairingDocument>, ProblemHttpResult> Show(HttpContext context, ServerOptions options, Doorkeeper doorkeeper)
        => !PairingCheck.IsAtThisMachine(context) ? OnlyHere()
            : TypedResults.Ok(new PairingDocument(options.Lan, options.Lan ? doorkeeper.Code : null, options.Lan ? PairingLink.Of(options, doorkeeper, context.Request.Host.Port) : null));

    private static Results<ContentHttpResult, ProblemHttpResult> Picture(HttpContext context, ServerOptions options, Doorkeeper doorkeeper)
        => !PairingCheck.IsAtThisMachine(context) ? OnlyHere()
            : PairingLink.Of(options, doorkeeper, context.Request.Host.Port) is { } link && options.Lan ? TypedResults.Text(PairingLink.Svg(link), "image/svg+xml")
            : Problem.NotFound("pairing code");

    private static Results<NoContent, ProblemHttpResult> Pair(HttpContext context, Doorkeeper doorkeeper, PairingGuess guess)
    {
        switch (doorkeeper.Guess(guess.Code, context.Connection.RemoteIpAddress?.ToString() ?? "here", out string? token))
        {
            case GuessResult.Right:
                context.Response.Cookies.Append(Doorkeeper.CookieName, token!, new CookieOptions
                {
                    HttpOnly = true,
                    SameSite = SameSiteMode.Strict,
                    Path = "/",
                    IsEssential = true,
                    MaxAge = TimeSpan.FromDays(30),
                });
                return TypedResults.NoContent();
            case GuessResult.Locked:
                context.Response.Headers.RetryAfter = ((int)Doorkeeper.Wait.TotalSeconds).ToString(System.Globalization.CultureInfo.InvariantCulture);
                return Problem.Of(
                    StatusCodes.Status429TooManyRequests, "Too many wrong codes.", "Nothing was changed. Wait ten minutes, then scan the code that leafscan serve shows.");
            default:
                return Problem.Of(
                    StatusCodes.Status403Forbidden, "The code is wrong.", "Nothing was changed. Scan the code that leafscan serve shows, or type it letter by letter.");
        }
    }

    private static ProblemHttpResult OnlyHere()
        => Problem.Of(StatusCodes.Status403Forbidden, "The code is shown only at the machine that runs leafscan serve.", "Nothing was changed. Look at its screen.");
}

/// <summary>The code for phones.</summary>
/// <param name="Lan">Whether other machines may open the page at all.</param>
/// <param name="Code">Code to type; null without --lan.</param>
/// <param name="Link">Link to scan; null without --lan.</param>
internal sealed record PairingDocument(bool Lan, string? Code, string? Link);

/// <summary>A typed or scanned code.</summary>
internal sealed record PairingGuess(string? Code);
