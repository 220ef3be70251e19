using LeafScan.Leaves;

namespace LeafScan.Notes.Client;

/// <summary>A note for other programs (schema leafscan.note/1): days as 2026-07-02, shares 0 to 1, texts as they stand on paper.</summary>
public static class NoteDocument
{
    /// <summary>The document, to be written as JSON in camel case.</summary>
    /// <param name="content">The note.</param>
    public static object Of(NoteContent content) => new
    {
        schema = "leafscan.note/1",
        tool = ToolVersion.Current,
        title = NotePages.TitleOf(content),
        heading = content.Heading,
        under = content.Under,
        client = content.Client,
        date = Day(content.Day),
        by = content.By,
        contact = content.Contact,
        greeting = content.Greeting,
        now = Figure(content.Now),
        before = Figure(content.Before),
        change = content.Change,
        seen = content.Seen,
        verdict = content.Verdict,
        because = content.Because,
        hasPicture = content.Picture is not null,
        caption = content.Picture?.Caption ?? content.PictureMissing,
        walks = content.Walks.Select(Figure),
        marks = content.Marks.Select(mark => new { date = Day(mark.Day), word = mark.Word }),
        done = content.Done,
        next = content.Next,
        cautions = content.Cautions,
        closing = content.Closing,
        measured = content.Measured,
        limits = content.Limits,
        plants = content.Plants.Select(plant => new { code = plant.Code, name = plant.Name, now = Figure(plant.Now), before = Figure(plant.Before), word = plant.Word, done = plant.Done }),
    };

    private static object? Figure(NoteFigure? figure) => figure is null ? null : new
    {
        date = Day(figure.Day),
        damage = Math.Round(figure.Damage, 6),
        damageLow = Math.Round(figure.Interval.Low, 6),
        damageHigh = Math.Round(figure.Interval.High, 6),
        level = figure.Interval.Level,
        chewed = Math.Round(figure.Chewed, 6),
        leaves = figure.LeafCount,
        photos = figure.PhotoCount,
    };

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
}
