namespace LeafScan.Trends.NextSteps;

/// <summary>One line of advice.</summary>
/// <param name="Words">What to do or to mind.</param>
/// <param name="Reason">Why.</param>
/// <param name="Source">Where that is from, with region.</param>
public sealed record AdviceLine(string Words, string Reason, string Source)
{
    internal const string Own = "our own choice, no source";

    internal const string Common = "common practice, no source";
}
