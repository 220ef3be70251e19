using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;

namespace LeafScan.Records;

/// <summary>What a person can say of one measured leaf.</summary>
public enum CorrectionKind
{
    /// <summary>What was taken for a leaf is none: it counts nowhere.</summary>
    NotALeaf,

    /// <summary>Its marks are not from mites; its damage stays.</summary>
    NotMites,

    /// <summary>Its outline is another one.</summary>
    Outline,
}

/// <summary>What a person said of one leaf. It stands until it is taken back; measuring again never drops it.</summary>
/// <param name="Id">Number.</param>
/// <param name="What">What was said.</param>
/// <param name="LeafOutline">Outline of the leaf when it was said: the mark by which it is found again.</param>
/// <param name="Outline">The outline that was drawn; null for the other kinds.</param>
/// <param name="Who">Who said it; null when not told.</param>
/// <param name="MadeAt">When.</param>
/// <param name="TakenBackAt">When it was taken back; null while it stands.</param>
public sealed record Correction(
    long Id, CorrectionKind What, IReadOnlyList<PointPx> LeafOutline, IReadOnlyList<PointPx>? Outline, string? Who, DateTimeOffset MadeAt, DateTimeOffset? TakenBackAt)
{
    /// <summary>Whether it was taken back.</summary>
    public bool IsTakenBack => TakenBackAt is not null;

    /// <summary>What the corrections that stand say of outlines, to measure or draw a photo with.</summary>
    public static OutlineEdit[] EditsOf(IEnumerable<Correction> said) =>
        [.. said.Where(one => !one.IsTakenBack && one.What != CorrectionKind.NotMites).Select(one => new OutlineEdit(one.LeafOutline, one.Outline))];
}
