namespace LeafScan.Leaves.Kinds;

/// <summary>What the photo-kind model thinks of one photo.</summary>
/// <param name="Chances">One chance for each of <see cref="PhotoKinds.All"/>, in that order; 0..1, together 1.</param>
public sealed record KindJudgement(IReadOnlyList<float> Chances)
{
    /// <summary>The likeliest kind.</summary>
    public PhotoKind Kind { get; } = PhotoKinds.All[Enumerable.Range(0, Chances.Count).MaxBy(i => Chances[i])];

    /// <summary>Chance of the likeliest kind, 0..1.</summary>
    public double Chance { get; } = Chances.Max();
}
