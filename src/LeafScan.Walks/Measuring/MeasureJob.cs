using LeafScan.Leaves;
using LeafScan.Leaves.Greenness;
using LeafScan.Photos;
using LeafScan.Walks.Tags;

namespace LeafScan.Walks.Measuring;

/// <summary>How a run measures its files.</summary>
public sealed record MeasureJob
{
    /// <summary>How each photo is measured.</summary>
    public MeasureOptions Options { get; init; } = new();

    /// <summary>What is refused before it is decoded.</summary>
    public PhotoLimits Limits { get; init; } = new();

    /// <summary>Folder for masks; null for none.</summary>
    public string? MasksFolder { get; init; }

    /// <summary>Folder for overlays; null for none.</summary>
    public string? OverlaysFolder { get; init; }

    /// <summary>What the files show of plant tags, by full path; files that are not in it show none.</summary>
    public IReadOnlyDictionary<string, TagSeen> Tags { get; init; } = new Dictionary<string, TagSeen>();

    /// <summary>Sound colours from healthy photos of the plants, by full path of the file; files that are not in it go by <see cref="Options"/>.</summary>
    public IReadOnlyDictionary<string, HealthyColour> Healthy { get; init; } = new Dictionary<string, HealthyColour>();

    /// <summary>How one file is measured.</summary>
    /// <param name="path">Its full path.</param>
    public MeasureOptions OptionsOf(string path) => Healthy.TryGetValue(path, out HealthyColour? colour) ? Options with { Healthy = colour } : Options;

    /// <summary>Photos measured at the same time, 1 or more.</summary>
    public int Workers { get; init; } = 1;

    /// <summary>
    /// When stopped, finish the photos in hand instead of dropping them; false by default. Then a stop takes a few seconds
    /// longer and loses nothing.
    /// </summary>
    public bool FinishInHand { get; init; }

    // A 12-megapixel photo with all its working copies stays below this; the largest allowed photo needs about eight times as much.
    private const long BytesPerWorker = 1_500_000_000;

    /// <summary>As many workers as there are processors, unless memory is short.</summary>
    public static int UsualWorkers()
    {
        long memory = GC.GetGCMemoryInfo().TotalAvailableMemoryBytes;
        return (int)Math.Clamp(memory / BytesPerWorker, 1, Environment.ProcessorCount);
    }
}
