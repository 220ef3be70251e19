using System.Text;
using LeafScan.Frame.Sheets;
using LeafScan.Notes.Exports;
using LeafScan.Records;
using LeafScan.Web.Documents;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>Settings, backup, and the series as a table for other programs.</summary>
internal static class UpkeepApi
{
    public static readonly Lock SettingsGate = new();

    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/settings", (RecordStore store) => Of(Settings.Load(store.Folder))).WithTags("Settings").WithSummary("What people set for themselves.");
        api.MapPut("/settings", Change).WithTags("Settings").WithSummary("Changes settings.").ProducesProblem(422);
        api.MapPost("/backup", BackUp).WithTags("Backup").WithSummary("Copies the record into a dated file beside it and checks the copy. Photos are not in it.");
        api.MapGet("/series.csv", Table).WithTags("Overview").WithSummary("The series of all plants as a table.").Produces(200, contentType: "text/csv");
    }

    private static SettingsDocument Of(Settings settings)
        => new() { PrintedBarMm = settings.PrintedBarMm, Units = settings.Units, DateForm = settings.DateForm, Who = settings.Who };

    private static Results<Ok<SettingsDocument>, ProblemHttpResult> Change(RecordStore store, SettingsDocument wish)
    {
        if (wish.PrintedBarMm is { } mm && !(mm >= ScaleSheet.RulerMm * PrintedScale.Least && mm <= ScaleSheet.RulerMm * PrintedScale.Most))
        {
            return Problem.WrongValue("A bar of this length is no printer's doing.", "Measure the 100 mm bar from end to end: it must lie between 90 and 110 mm.");
        }

        if (wish.Units is not (null or "" or "mm" or "in") || wish.DateForm is not (null or "" or "year-month-day" or "day-month-year" or "month-day-year"))
        {
            return Problem.WrongValue("This choice is not known.", "Units are mm or in; dates year-month-day, day-month-year or month-day-year.");
        }

        if (wish.Who is { Length: > 0 } name && NameText.Clean(name) is null)
        {
            return Problem.WrongValue("This name cannot be kept.", $"Use 1 to {NameText.LongestName} characters that can be seen, without line breaks.");
        }

        lock (SettingsGate)
        {
            Settings old = Settings.Load(store.Folder);
            Settings now = old with
            {
                PrintedBarMm = wish.PrintedBarMm switch
                {
                    null => old.PrintedBarMm,
                    ScaleSheet.RulerMm => null,
                    _ => wish.PrintedBarMm,
                },
                Units = Kept(wish.Units, old.Units),
                DateForm = Kept(wish.DateForm, old.DateForm),
                Who = Kept(wish.Who is null ? null : NameText.Clean(wish.Who) ?? "", old.Who),
            };
            now.Save(store.Folder);
            return TypedResults.Ok(Of(now));
        }
    }

    private static BackupDocument BackUp(RecordStore store)
    {
        string file = store.BackUp();
        return new BackupDocument(file, new FileInfo(file).Length);
    }

    private static FileContentHttpResult Table(RecordStore store, string? place = null)
        => TypedResults.File(Encoding.UTF8.GetBytes(SeriesTable.Of(store, store.Plants(place)).ToCsv().ToString()), "text/csv; charset=utf-8", "leafscan-series.csv");

    private static string? Kept(string? wish, string? old) => wish switch
    {
        null => old,
        "" => null,
        _ => wish,
    };
}
