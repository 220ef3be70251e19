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

/// <summary>More of a care entry, as the person wrote it; null stands for "not told". Rates and doses are the label's business and not kept apart.</summary>
public sealed record CareDetails
{
    /// <summary>Time of day, local.</summary>
    public TimeOnly? At { get; init; }

    /// <summary>Active ingredient.</summary>
    public string? Active { get; init; }

    /// <summary>Mode-of-action group by IRAC, such as "10A".</summary>
    public string? ModeGroup { get; init; }

    /// <summary>Registration or label number.</summary>
    public string? LabelNumber { get; init; }

    /// <summary>What it was against.</summary>
    public string? Target { get; init; }

    /// <summary>Weather and other circumstances, in words.</summary>
    public string? Conditions { get; init; }
}

/// <summary>One care entry.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="PlantId">Plant that was cared for.</param>
/// <param name="DoneOn">Local calendar day.</param>
/// <param name="What">What was done.</param>
/// <param name="Note">More in words; null when nothing was noted.</param>
public sealed record CareEntry(long Id, long PlantId, DateOnly DoneOn, CareKind What, string? Note)
{
    /// <summary>More of it.</summary>
    public CareDetails Details { get; init; } = new();
}
