using LeafScan.Records;

namespace LeafScan.Web.Api;

/// <summary>What the readings of a plant are of. A page shows one kind at a time and offers the others.</summary>
internal static class KindsOnRecord
{
    /// <summary>leaf, twig and plant, in the order in which one is shown when none is asked for.</summary>
    public static readonly string[] All = ["leaf", "twig", "plant"];

    /// <summary>Those that a plant has photos of.</summary>
    public static IReadOnlyList<string> Of(RecordStore store, long plantId)
    {
        HashSet<string> seen = [.. store.PhotosOfPlant(plantId).Select(photo => photo.Kind)];
        return [.. All.Where(seen.Contains)];
    }

    /// <summary>The kind that was asked for; null for none and for a word that is none.</summary>
    public static string? Known(string? asked) => Array.Find(All, kind => kind == asked);
}
