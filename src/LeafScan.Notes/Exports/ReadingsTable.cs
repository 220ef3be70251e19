using LeafScan.Leaves.Reading;
using LeafScan.Records;

namespace LeafScan.Notes.Exports;

/// <summary>Which photos of the record an export takes; null stands for "all".</summary>
/// <param name="PlantIds">Only of these plants; photos without a plant are then left out.</param>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
public sealed record PhotoRange(IReadOnlySet<long>? PlantIds = null, DateOnly? From = null, DateOnly? To = null)
{
    /// <summary>The photos, by day and file name; those in the bin are left out.</summary>
    public IEnumerable<PhotoOnRecord> Of(RecordStore store) => store.Photos().Where(photo =>
        (PlantIds is null || (photo.PlantId is { } plant && PlantIds.Contains(plant)))
        && (From is null || photo.WalkedOn >= From) && (To is null || photo.WalkedOn <= To));
}

/// <summary>
/// Every leaf on record for other software (schema leafscan.readings/1): one row a leaf of a photo's current reading, also of
/// photos whose plant is not known. Places and outlines of specks are not in it; "measure --json" has those.
/// </summary>
public static class ReadingsTable
{
    private static readonly string[] Columns =
    [
        "place", "plant", "name", "species", "block", "row", "position", "date", "photo", "sha256", "taken", "kind", "leaf", "leafAge", "leafLabel",
        "areaPx", "areaMm2", .. FigureColumns.Shares, "damage", "damageLow", "damageHigh", "speckCount", "speckDensityPerCm2", "speckDiameterMedianPx",
        "likeliestCause", "causeScore", "flags", "toolOfReading", "optionsOfReading", "modelOfReading",
        "thinning", "thinningLow", "thinningHigh", "worstSide", "worstHeight", "fallColour", "greenness", "newGrowth", "needleLengthMm", "specksPerCmOfNeedle",
    ];

    private static readonly string[] Kinds = ["leaf", "twig", "plant"];

    /// <summary>Makes the table.</summary>
    /// <param name="store">The record.</param>
    /// <param name="range">Which photos.</param>
    public static ExportTable Of(RecordStore store, PhotoRange range)
    {
        ExportTable table = new("leafscan.readings/1", "leaves", Columns);
        Dictionary<long, Plant> plants = store.Plants().ToDictionary(plant => plant.Id);
        Dictionary<(long Photo, int Leaf), LeafOnRecord> told = Told(store, plants.Keys, range);
        foreach (PhotoOnRecord photo in range.Of(store))
        {
            if (store.ReadingOf(photo.Id) is not { } whole)
            {
                continue;
            }

            Plant? plant = photo.PlantId is { } id ? plants.GetValueOrDefault(id) : null;
            for (int i = 0; i < whole.Leaves.Count; i++)
            {
                table.Add(Row(photo, plant, whole, ReadingRounding.Round(whole.Leaves[i]), i, told.GetValueOrDefault((photo.Id, i))));
            }
        }

        return table;
    }

    // Age and label stand with the leaf; the reading has all else. One question for each kind and not one for each photo.
    private static Dictionary<(long Photo, int Leaf), LeafOnRecord> Told(RecordStore store, IEnumerable<long> plants, PhotoRange range)
    {
        long[] ids = [.. range.PlantIds ?? plants];
        return Kinds.SelectMany(kind => store.LeavesOfPlants(ids, range.From, range.To, kind)).Where(leaf => leaf.Age is not null || leaf.Tag is not null)
            .ToDictionary(leaf => (leaf.PhotoId, leaf.Ordinal));
    }

    private static object?[] Row(PhotoOnRecord photo, Plant? plant, PhotoReading whole, LeafReading leaf, int place, LeafOnRecord? told)
    {
        LeafCause? cause = leaf.Causes.Count > 0 ? leaf.Causes[0] : null;
        return
        [
            photo.PlaceName, plant?.Code, plant?.Name, plant?.Species, plant?.Facts.Block, plant?.Facts.Row, plant?.Facts.Position,
            photo.WalkedOn, photo.FileName, photo.Sha256, photo.Taken, whole.Kind, place + 1,
            (told?.Age ?? photo.LeafAge)?.ToString().ToLowerInvariant(), told?.Tag ?? (whole.Leaves.Count == 1 ? photo.LeafTag : null),
            leaf.AreaPx, leaf.AreaMm2, .. FigureColumns.SharesOf(leaf.Shares), leaf.Damage, leaf.DamageLow, leaf.DamageHigh,
            leaf.SpeckCount, leaf.SpeckDensityPerCm2, leaf.SpeckDiameterMedianPx, cause?.Cause, cause?.Score,
            whole.Flags.Union(leaf.Flags, StringComparer.Ordinal).ToArray(), photo.Origin.ToolVersion, photo.Origin.OptionsHash, photo.Origin.ModelVersion,
            leaf.Crown?.Thinning, leaf.Crown?.ThinningLow, leaf.Crown?.ThinningHigh, leaf.Crown?.WorstSide, leaf.Crown?.WorstHeight, leaf.Crown?.FallColour,
            leaf.Greenness, leaf.NewGrowth, leaf.NeedleLengthMm, leaf.SpecksPerCmOfNeedle,
        ];
    }
}
