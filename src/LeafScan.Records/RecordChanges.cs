namespace LeafScan.Records;

/// <summary>
/// When what a verdict hangs on was last changed, as numbers that rise with each change, whichever program made it: whoever kept an answer
/// sees whether it still holds. Numbers of two records have nothing to do with one another.
/// </summary>
/// <param name="Last">Number of the last change of all.</param>
/// <param name="OfPlants">By plant: its own facts, photos, readings, labels of leaves, care and taps. A plant that is missing was not changed since this layout.</param>
/// <param name="OfWeather">By place: its weather; the same for places that are missing.</param>
/// <param name="Untreated">Plants with a species that are marked as left untreated, or have a care entry "nothing".</param>
public sealed record RecordChanges(
    long Last, IReadOnlyDictionary<long, long> OfPlants, IReadOnlyDictionary<long, long> OfWeather, IReadOnlyList<UntreatedPlant> Untreated);

/// <summary>A plant that may serve as a check on others of its species at its place.</summary>
/// <param name="PlantId">Plant.</param>
/// <param name="PlaceId">Its place.</param>
/// <param name="Species">Its species.</param>
public sealed record UntreatedPlant(long PlantId, long PlaceId, string Species);
