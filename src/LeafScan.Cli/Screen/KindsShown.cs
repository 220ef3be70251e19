using LeafScan.Records;

namespace LeafScan.Cli.Screen;

/// <summary>What the readings behind a table are of. A plant's are always of one kind; those of several plants may differ, and then it is said.</summary>
/// <param name="Plants">Plants with readings of each kind, most plants first.</param>
internal sealed record KindsShown(IReadOnlyList<(string Kind, int Plants)> Plants)
{
    /// <summary>Names for documents.</summary>
    public IEnumerable<string> Names => Plants.Select(kind => kind.Kind);

    /// <summary>One word for what is averaged over: leaves, twigs, whole plants; readings where kinds differ or nothing is there.</summary>
    public string Things => Plants.Count == 1 ? Many(Plants[0].Kind) : Plants.Count == 0 ? "leaves" : "readings";

    /// <summary>A sentence where kinds differ; null else.</summary>
    public string? Caution => Plants.Count < 2 ? null
        : $"These means put {string.Join(" and ", Plants.Select(kind => $"{Many(kind.Kind)} of {Words.Count(kind.Plants, "plant")}"))} together, which do not compare: add --kind {Plants[0].Kind} for one of them.";

    /// <summary>A sentence where one kind was asked for and there is none of it; null else.</summary>
    /// <param name="asked">The kind that was asked for; null for none.</param>
    public string? Nothing(string? asked) => asked is null || Plants.Count > 0 ? null : $"No {Many(asked)} are on record here. What there is, is shown without --kind.";

    /// <summary>Counts.</summary>
    public static KindsShown Of(IEnumerable<LeafOnRecord> leaves) => Of(leaves.Select(leaf => (leaf.PlantId, leaf.Kind)));

    /// <summary>Counts.</summary>
    public static KindsShown Of(IEnumerable<LeafDamage> leaves) => Of(leaves.Select(leaf => (leaf.PlantId, leaf.Kind)));

    private static KindsShown Of(IEnumerable<(long PlantId, string Kind)> leaves) => new(
        [.. leaves.GroupBy(leaf => leaf.Kind).Select(of => (of.Key, of.Select(leaf => leaf.PlantId).Distinct().Count())).OrderByDescending(of => of.Item2).ThenBy(of => of.Key, StringComparer.Ordinal)]);

    private static string Many(string kind) => kind switch { "twig" => "twigs", "plant" => "whole plants", _ => "leaves" };
}
