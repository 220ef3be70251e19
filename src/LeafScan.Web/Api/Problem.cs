using LeafScan.Records;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>What went wrong, as RFC 9457 asks: the title says what happened, the detail what is safe and what to do next.</summary>
internal static class Problem
{
    public const string MediaType = "application/problem+json";

    public static ProblemHttpResult Of(int status, string happened, string safeAndNext)
        => TypedResults.Problem(title: happened, detail: safeAndNext, statusCode: status, type: "about:blank");

    public static ProblemHttpResult Of(RecordException trouble) => Of(StatusOf(trouble.Trouble), trouble.Happened, $"{trouble.Safe} {trouble.Next}");

    public static ProblemHttpResult NotFound(string what)
        => Of(StatusCodes.Status404NotFound, $"There is no such {what} on record.", "Nothing was changed. Go back to the list; it may have been moved or put into the bin.");

    public static ProblemHttpResult WrongValue(string happened, string next)
        => Of(StatusCodes.Status422UnprocessableEntity, happened, $"Nothing was written. {next}");

    public static int StatusOf(RecordTrouble trouble) => trouble switch
    {
        RecordTrouble.WrongValue => StatusCodes.Status422UnprocessableEntity,
        RecordTrouble.NoRecord or RecordTrouble.NoFolder => StatusCodes.Status404NotFound,
        RecordTrouble.Busy => StatusCodes.Status503ServiceUnavailable,
        RecordTrouble.DiskFull => StatusCodes.Status507InsufficientStorage,
        _ => StatusCodes.Status500InternalServerError,
    };
}
