namespace LeafScan.Taps;

/// <summary>What a speck on the sheet was taken for.</summary>
public enum SpeckFate
{
    /// <summary>Lay still between the photos.</summary>
    Debris,

    /// <summary>Walked as a mite walks.</summary>
    Crawling,

    /// <summary>Walked faster than a plant-feeding mite: possibly a predator. Its colour is not judged.</summary>
    PossiblePredator,

    /// <summary>Moved as many others did: blown by the wind or shaken.</summary>
    Blown,

    /// <summary>Seen in the first photo only: it walked off, flew off or lies under something else.</summary>
    Gone,

    /// <summary>Seen in the second photo only.</summary>
    Come,

    /// <summary>Seen in a single photo: it may be a mite or dust.</summary>
    Candidate,
}

/// <summary>One speck on the sheet. Places are pixels of the first photo it was seen in.</summary>
/// <param name="X">Pixels to the right.</param>
/// <param name="Y">Pixels down.</param>
/// <param name="DiameterPx">Diameter of a disc as dark and as large, in pixels.</param>
/// <param name="MovedPx">Way between the photos after lining them up, in pixels of the first photo; 0 for what lay still or was seen once.</param>
/// <param name="Fate">What it was taken for.</param>
public sealed record TapSpeck(double X, double Y, double DiameterPx, double MovedPx, SpeckFate Fate)
{
    /// <summary>Where it went, in pixels of the first photo; its own place when it lay still or was seen once.</summary>
    public double ToX { get; init; } = X;

    /// <summary>Where it went, in pixels of the first photo.</summary>
    public double ToY { get; init; } = Y;

    /// <summary>Diameter in mm; null without a scale.</summary>
    public double? DiameterMm { get; init; }

    /// <summary>Way in mm; null without a scale.</summary>
    public double? MovedMm { get; init; }
}
