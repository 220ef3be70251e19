namespace LeafScan.Photos;

/// <summary>Why a file was not read, in words for the person who took the photo.</summary>
/// <param name="FileName">File name without folders.</param>
/// <param name="Reason">What happened, one sentence.</param>
/// <param name="Advice">What to do next, one sentence.</param>
public sealed record PhotoRefusal(string FileName, string Reason, string Advice);
