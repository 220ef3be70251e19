namespace LeafScan.Records;

/// <summary>What was done to a plant.</summary>
public enum CareKind
{
    /// <summary>Rinsed with water.</summary>
    Rinse,

    /// <summary>Insecticidal soap.</summary>
    Soap,

    /// <summary>Horticultural oil.</summary>
    Oil,

    /// <summary>Predatory mites or insects released.</summary>
    Predators,

    /// <summary>A miticide.</summary>
    Miticide,

    /// <summary>Parts were cut away.</summary>
    Pruning,

    /// <summary>Left alone on purpose.</summary>
    Nothing,
}

/// <summary>One care entry.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="PlantId">Plant that was cared for.</param>
/// <param name="DoneOn">Local calendar day.</param>
/// <param name="What">What was done.</param>
/// <param name="Note">More in words; null when nothing was noted.</param>
public sealed record CareEntry(long Id, long PlantId, DateOnly DoneOn, CareKind What, string? Note);
