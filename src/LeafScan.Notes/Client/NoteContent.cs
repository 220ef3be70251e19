using LeafScan.Trends.Statistics;

namespace LeafScan.Notes.Client;

/// <summary>All that a note says, in the client's words and forms, before anything is known of paper or screens.</summary>
public sealed record NoteContent
{
    /// <summary>Headings.</summary>
    public NoteWords Words { get; init; } = new();

    /// <summary>How days and shares are written.</summary>
    public NoteForms Forms { get; init; } = new(DateForm.DayMonthInWords, false);

    /// <summary>What people call the plant or place.</summary>
    public required string Heading { get; init; }

    /// <summary>What identifies it further: code and species, place, bed and row; one line each.</summary>
    public IReadOnlyList<string> Under { get; init; } = [];

    /// <summary>Client; null when not known.</summary>
    public string? Client { get; init; }

    /// <summary>Day of the note.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>Who wrote it; null when not told.</summary>
    public string? By { get; init; }

    /// <summary>How to reach them; null when not told.</summary>
    public string? Contact { get; init; }

    /// <summary>Text before all else; null for none.</summary>
    public string? Greeting { get; init; }

    /// <summary>The figure of the last walk; null when nothing was measured, and for a place.</summary>
    public NoteFigure? Now { get; init; }

    /// <summary>The figure it is laid beside; null when there is none.</summary>
    public NoteFigure? Before { get; init; }

    /// <summary>What may be said of the two figures; null when there are not two.</summary>
    public string? Change { get; init; }

    /// <summary>What was seen, one paragraph each.</summary>
    public required IReadOnlyList<string> Seen { get; init; }

    /// <summary>How it is going, in a sentence; null when nothing can be said.</summary>
    public string? Verdict { get; init; }

    /// <summary>The reasons.</summary>
    public IReadOnlyList<string> Because { get; init; } = [];

    /// <summary>Photo with what was found; null when there is none.</summary>
    public NotePicture? Picture { get; init; }

    /// <summary>Why there is no picture; null when there is one.</summary>
    public string? PictureMissing { get; init; }

    /// <summary>The walks, oldest first.</summary>
    public IReadOnlyList<NoteFigure> Walks { get; init; } = [];

    /// <summary>What the chart has at its foot, oldest first.</summary>
    public IReadOnlyList<NoteMark> Marks { get; init; } = [];

    /// <summary>What was done, one line each.</summary>
    public IReadOnlyList<string> Done { get; init; } = [];

    /// <summary>What comes next, most pressing first.</summary>
    public IReadOnlyList<string> Next { get; init; } = [];

    /// <summary>Cautions.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];

    /// <summary>Text after all else; null for none.</summary>
    public string? Closing { get; init; }

    /// <summary>How it was measured.</summary>
    public required string Measured { get; init; }

    /// <summary>What it cannot say.</summary>
    public required string Limits { get; init; }

    /// <summary>Plants of a place; empty in the note of one plant.</summary>
    public IReadOnlyList<NotePlant> Plants { get; init; } = [];
}

/// <summary>Damage of one plant on one walk.</summary>
/// <param name="Day">Day of the walk.</param>
/// <param name="Damage">Mean over leaves, 0..1.</param>
/// <param name="Interval">Where the mean of all the plant's leaves very likely lies.</param>
/// <param name="LeafCount">Leaves that count.</param>
/// <param name="PhotoCount">Photos they are on.</param>
public sealed record NoteFigure(DateOnly Day, double Damage, Interval Interval, int LeafCount, int PhotoCount)
{
    /// <summary>Share of the leaves that was eaten away, 0..1; no part of the damage. 0 by default.</summary>
    public double Chewed { get; init; }

    /// <summary>Kind of what was measured: <c>leaf</c>, the default, <c>twig</c> or <c>plant</c>.</summary>
    public string Kind { get; init; } = "leaf";
}

/// <summary>Something done or counted on a day, as the chart shows it.</summary>
/// <param name="Day">Day.</param>
/// <param name="Word">One or two words.</param>
public sealed record NoteMark(DateOnly Day, string Word);

/// <summary>A photo with what was found drawn over it.</summary>
/// <param name="Jpeg">A JPEG without metadata.</param>
/// <param name="WidthPx">Width.</param>
/// <param name="HeightPx">Height.</param>
/// <param name="Caption">What it shows and what its lines mean.</param>
public sealed record NotePicture(ReadOnlyMemory<byte> Jpeg, int WidthPx, int HeightPx, string Caption)
{
    /// <summary>The same part of the photo with nothing drawn over it, as a JPEG without metadata and of the same size; empty when it was not asked for.</summary>
    public ReadOnlyMemory<byte> Plain { get; init; }
}

/// <summary>One plant in the note of a place.</summary>
/// <param name="Code">Code.</param>
/// <param name="Name">Name or species; null when not told.</param>
/// <param name="Now">Figure of its last walk; null when none was measured.</param>
/// <param name="Before">Figure it is laid beside; null when there is none.</param>
/// <param name="Word">How it is going, in a word or two.</param>
/// <param name="Done">What was done, in a few words; empty when nothing.</param>
public sealed record NotePlant(string Code, string? Name, NoteFigure? Now, NoteFigure? Before, string Word, string Done);
