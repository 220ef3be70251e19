namespace LeafScan.Training.Kinds;

/// <summary>How the photo-kind model is trained. Printed into its card.</summary>
internal sealed record KindTrainingOptions
{
    /// <summary>Folders of real photos, FOLDER or FOLDER:KIND. Photos with an even number in their name are kept for checking.</summary>
    public IReadOnlyList<string> Folders { get; init; } = [];

    /// <summary>Seed of all chance, 1 to 800: scenes 1000 × seed and following are rendered.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Rendered and drawn pictures of each kind; 60 by default.</summary>
    public int PerKind { get; init; } = 60;

    /// <summary>Further variations of each rendered or drawn picture; 2 by default.</summary>
    public int Variations { get; init; } = 2;

    /// <summary>Further variations of each real photo of a leaf: a leaf refused by mistake is the worst mistake; 6 by default.</summary>
    public int VariationsOfRealLeaves { get; init; } = 6;
}
