using LeafScan.Leaves.Reading;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>One spot that may be a speck: where it is, who saw it, and what the judge is told of it.</summary>
internal sealed class SpeckCandidate
{
    /// <summary>How many features there are.</summary>
    public const int FeatureCount = (int)SpeckFeature.LeafTexture + 1;

    /// <summary>Centre and diameter in patch pixels.</summary>
    public required SpeckMark Mark { get; init; }

    /// <summary>Score in the network's centre map, 0..1; 0 where only colour saw it.</summary>
    public double CentreScore { get; init; }

    /// <summary>Diameter in pixels of the colour filter that found it; 0 where colour did not.</summary>
    public double FilterPx { get; set; }

    /// <summary>Values in the order of <see cref="SpeckFeature"/>.</summary>
    public float[] Features { get; } = new float[FeatureCount];

    /// <summary>True where the network's centre map has a peak.</summary>
    public bool ByNetwork => CentreScore > 0;

    /// <summary>True where the colour way has a peak.</summary>
    public bool ByColour => FilterPx > 0;

    /// <summary>One feature.</summary>
    public float this[SpeckFeature feature]
    {
        get => Features[(int)feature];
        set => Features[(int)feature] = value;
    }
}
