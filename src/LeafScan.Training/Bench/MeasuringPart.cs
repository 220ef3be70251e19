using LeafScan.Leaves;

namespace LeafScan.Training.Bench;

/// <summary>A part of the measuring that can be switched off, to see what it contributes.</summary>
/// <param name="Name">Name on the command line.</param>
/// <param name="Words">What the reading does without it.</param>
/// <param name="Without">The options with the part switched off.</param>
public sealed record MeasuringPart(string Name, string Words, Func<MeasureOptions, MeasureOptions> Without)
{
    /// <summary>All parts, in the order of tables.</summary>
    public static IReadOnlyList<MeasuringPart> All { get; } =
    [
        new("network", "no tissue network: colour and shape alone", o => o with { Tissue = o.Tissue with { Learned = false } }),
        new("outline-network", "no outline network: in photos without a sheet the leaf is found by colour, focus and place", o => o with { Outline = o.Outline with { Learned = false } }),
        new("judge", "no speck judge: the network's peaks and the colour filter's second look", NoJudge),
        new("second-look", "no speck judge and no second look: the network alone", o => NoJudge(o) with { Tissue = NoJudge(o).Tissue with { SureStrength = 2 } }),
        new("splitting", "no splitting of merged fields", o => o with { Tissue = o.Tissue with { SplitMergedFields = false } }),
        new("texture", "no texture way for small leaves: only specks seen one by one", o => o with { FineTexture = o.FineTexture with { BelowLeafPx = 0 } }),
        new("chewing", "no rebuilding of the outline: nothing counts as chewed", o => o with { Chewing = o.Chewing with { SmallestShare = 2 } }),
    ];

    /// <summary>The part of that name, or null.</summary>
    public static MeasuringPart? Find(string name) => All.FirstOrDefault(p => p.Name == name);

    private static MeasureOptions NoJudge(MeasureOptions options) => options with { Tissue = options.Tissue with { SpeckChance = 2 } };
}
