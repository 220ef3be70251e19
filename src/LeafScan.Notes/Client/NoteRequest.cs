using LeafScan.Records;

namespace LeafScan.Notes.Client;

/// <summary>What a note is made with besides the record.</summary>
public sealed record NoteRequest
{
    /// <summary>Day of the note.</summary>
    public required DateOnly Today { get; init; }

    /// <summary>Since when; the figure is laid beside the last walk on or before this day. Null, the default: beside the walk before.</summary>
    public DateOnly? Since { get; init; }

    /// <summary>By readings of this kind only: leaf, twig or plant. Null, the default: of each plant its leaves where it has any, else twigs, else whole-plant photos.</summary>
    public string? Kind { get; init; }

    /// <summary>Who writes it.</summary>
    public string? By { get; init; }

    /// <summary>How to reach them.</summary>
    public string? Contact { get; init; }

    /// <summary>Headings.</summary>
    public NoteWords Words { get; init; } = new();

    /// <summary>How days and shares are written.</summary>
    public NoteForms Forms { get; init; } = new(DateForm.DayMonthInWords, false);

    /// <summary>Version of the tool, for "how it was measured".</summary>
    public string ToolVersion { get; init; } = "";

    /// <summary>Draws the picture of a photo on record; null when that cannot be done. Null, the default, for a note without a picture.</summary>
    public Func<PhotoOnRecord, NotePicture?>? PictureOf { get; init; }

    /// <summary>A request in the form that <see cref="NoteLook"/> has settled: the same for the command and for the page.</summary>
    /// <param name="look">Who writes it, and in which form.</param>
    /// <param name="today">Day of the note.</param>
    /// <param name="since">Since when; null for beside the walk before.</param>
    /// <param name="pictures">Draws pictures; null for a note without one.</param>
    public static NoteRequest Of(NoteLook look, DateOnly today, DateOnly? since, Func<PhotoOnRecord, NotePicture?>? pictures) => new()
    {
        Today = today,
        Since = since,
        By = look.By,
        Contact = look.Contact,
        Words = look.Words,
        Forms = look.Forms,
        ToolVersion = Leaves.ToolVersion.Current,
        PictureOf = pictures,
    };
}
