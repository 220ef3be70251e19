using LeafScan.Records;
using LeafScan.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Safety;

/// <summary>Turns whatever an answer throws into a problem in words.</summary>
internal sealed class LastNet(RequestDelegate next, ServerOptions options)
{
    public async Task InvokeAsync(HttpContext context)
    {
        try
        {
            await next(context).ConfigureAwait(false);
        }
        catch (Exception gone) when (gone is OperationCanceledException or IOException && context.RequestAborted.IsCancellationRequested)
        {
            // Nobody waits for the answer any more.
        }
        catch (RecordException trouble) when (!context.Response.HasStarted)
        {
            await Answer(context, Problem.Of(trouble)).ConfigureAwait(false);
        }
        catch (BadHttpRequestException wrong) when (!context.Response.HasStarted)
        {
            await Answer(context, wrong.StatusCode == StatusCodes.Status413PayloadTooLarge
                ? Problem.Of(StatusCodes.Status413PayloadTooLarge, "The request is too large.", "Nothing was changed. Send less at once.")
                : Problem.Of(StatusCodes.Status400BadRequest, "The request cannot be read.", "Nothing was changed. See /openapi/v1.json for what belongs into it.")).ConfigureAwait(false);
        }
        // Everything else is our own fault: the person gets a sentence, the log the rest.
#pragma warning disable CA1031
        catch (Exception fault) when (!context.Response.HasStarted)
#pragma warning restore CA1031
        {
            string where = options.Log(fault) is { } log ? $"Please report it with the details in {log}." : $"Please report it: {fault.GetType().Name}.";
            await Answer(context, Problem.Of(StatusCodes.Status500InternalServerError, "LeafScan made a mistake of its own.", $"What was stored before is safe. {where}")).ConfigureAwait(false);
        }
    }

    private static Task Answer(HttpContext context, ProblemHttpResult problem)
    {
        context.Response.Clear();
        return problem.ExecuteAsync(context);
    }
}
