namespace LeafScan.Web.Documents;

/// <summary>What the record holds and how the server stands.</summary>
/// <param name="Tool">Version of the tool.</param>
/// <param name="Places">Places, by name.</param>
/// <param name="Photos">Photos on record.</param>
/// <param name="Waiting">Photos that were received and are not measured yet.</param>
/// <param name="Lan">Whether other machines may open the page.</param>
/// <param name="ReadOnly">Whether nothing can be written.</param>
/// <param name="Today">Day at this machine.</param>
/// <param name="Problems">What a person should know, one sentence each.</param>
internal sealed record StateDocument(
    string Tool, IReadOnlyList<PlaceDocument> Places, long Photos, int Waiting, bool Lan, bool ReadOnly, DateOnly Today, IReadOnlyList<string> Problems);

/// <summary>A place in the list of places.</summary>
internal sealed record PlaceDocument(long Id, string Name, string? Client, int Plants, int Walks);
