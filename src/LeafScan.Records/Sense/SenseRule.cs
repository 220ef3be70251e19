namespace LeafScan.Records.Sense;

/// <summary>Something that no row of a table may be, whoever wrote it.</summary>
/// <param name="Table">Table.</param>
/// <param name="Says">What is wrong with a row that breaks it, in words that follow "leaf 12".</param>
/// <param name="Broken">The rows that break it, as a condition in the words of SQL; $lastDay and $lastTime may stand in it.</param>
internal sealed record SenseRule(string Table, string Says, string Broken);
