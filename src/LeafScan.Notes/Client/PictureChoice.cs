using LeafScan.Leaves;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;

namespace LeafScan.Notes.Client;

/// <summary>How a photo is measured again and drawn for a note or a card.</summary>
public sealed record PictureChoice
{
    /// <summary>How it is measured; the defaults by default. To draw what is on record, those of the record.</summary>
    public MeasureOptions Options { get; init; } = new();

    /// <summary>What a person said of its outlines; none by default.</summary>
    public IReadOnlyList<OutlineEdit> Edits { get; init; } = [];

    /// <summary>Only this leaf, 1 for the largest; null, the default, for all leaves.</summary>
    public int? Leaf { get; init; }

    /// <summary>Least height of the picture as a share of its width, so that a long leaf does not give a strip; 0.62 by default, 0.3 to 1.</summary>
    public double LeastShape { get; init; } = 0.62;

    /// <summary>Whether the same part is also given without anything drawn over it; false by default.</summary>
    public bool WithPlain { get; init; }

    /// <summary>The same, measured as the photo on record was: as the kind it was taken for, with what a person said of its outlines.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="said">What was said of it.</param>
    public PictureChoice AsRecorded(PhotoOnRecord photo, IReadOnlyList<Correction> said) => this with
    {
        Options = Options with { Kind = photo.Kind is "leaf" or "twig" or "plant" ? photo.Kind : null },
        Edits = Correction.EditsOf(said),
    };
}

/// <summary>A photo that was drawn, or why not.</summary>
public sealed record DrawnPhoto
{
    /// <summary>What was measured, all leaves; null when there is none.</summary>
    public PhotoReading? Reading { get; init; }

    /// <summary>Facts of the file; null when there is no picture.</summary>
    public PhotoFacts? Facts { get; init; }

    /// <summary>The picture; its caption says what the lines mean. Null when there is none.</summary>
    public NotePicture? Picture { get; init; }

    /// <summary>Why there is no picture; null when there is one.</summary>
    public PhotoRefusal? Refusal { get; init; }
}
