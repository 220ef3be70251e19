using LeafScan.Leaves.Reading;
using LeafScan.Notes.Client;
using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Notes.Cards;

/// <summary>The measure as one picture for a message: photo, what was found on it, number with its interval, day and plant.</summary>
public sealed record MeasureCard
{
    /// <summary>How days are written.</summary>
    public NoteForms Forms { get; init; } = new(DateForm.DayMonthInWords, false);

    /// <summary>What people call the plant; the file's name when the plant is unknown.</summary>
    public required string Heading { get; init; }

    /// <summary>What identifies it further, a line each.</summary>
    public IReadOnlyList<string> Under { get; init; } = [];

    /// <summary>The plant; null when unknown.</summary>
    public Plant? Plant { get; init; }

    /// <summary>Day on which the photos were taken; null when unknown.</summary>
    public required DateOnly? Day { get; init; }

    /// <summary>What was measured: leaf, twig or plant.</summary>
    public string Kind { get; init; } = "leaf";

    /// <summary>Whether the number is that of one photo, and not the mean of a plant's walk.</summary>
    public required bool IsOfPhoto { get; init; }

    /// <summary>Damage, 0..1: of the leaf, or the mean over the leaves.</summary>
    public required double Damage { get; init; }

    /// <summary>Its interval: of one leaf what measuring leaves open, of several where the mean of all the plant's leaves very likely lies.</summary>
    public required Interval Interval { get; init; }

    /// <summary>Leaves that count.</summary>
    public required int LeafCount { get; init; }

    /// <summary>Photos they are on.</summary>
    public required int PhotoCount { get; init; }

    /// <summary>Mean shares of the leaves.</summary>
    public required LeafShares Shares { get; init; }

    /// <summary>Photo and what was found on it; null when there is none.</summary>
    public NotePicture? Picture { get; init; }

    /// <summary>Why there is no picture; null when there is one.</summary>
    public string? PictureMissing { get; init; }

    /// <summary>The photo that is shown; null when there is none.</summary>
    public CardPhoto? Photo { get; init; }

    /// <summary>Doubts about the photo that is shown, as names of flags.</summary>
    public IReadOnlyList<string> Flags { get; init; } = [];

    /// <summary>Who sends it; null when not told.</summary>
    public string? By { get; init; }

    /// <summary>How to reach them; null when not told.</summary>
    public string? Contact { get; init; }
}

/// <summary>The photo of a card.</summary>
/// <param name="FileName">File name.</param>
/// <param name="Sha256">Fingerprint of the photo's file, lower-case hex.</param>
/// <param name="Leaf">The leaf that is shown, 1 for the largest; null for all leaves of the photo.</param>
/// <param name="Damage">Damage of the leaf or leaves shown, 0..1.</param>
public sealed record CardPhoto(string FileName, string Sha256, int? Leaf, double Damage);
