using Microsoft.Extensions.Primitives;

namespace LeafScan.Web.Safety;

/// <summary>Headers of every answer: nothing from elsewhere runs in the page, nobody frames it, nothing is guessed or kept.</summary>
internal sealed class AnswerHeaders(RequestDelegate next)
{
    // blob: shows a photo before it is sent. No inline script or style, nothing from outside.
    public const string Policy = "default-src 'self'; img-src 'self' blob:; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

    public Task InvokeAsync(HttpContext context)
    {
        IHeaderDictionary headers = context.Response.Headers;
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "geolocation=(), microphone=(), payment=(), usb=()";
        context.Response.OnStarting(() =>
        {
            if (StringValues.IsNullOrEmpty(headers.CacheControl))
            {
                headers.CacheControl = "no-store";
            }

            return Task.CompletedTask;
        });
        return next(context);
    }
}
