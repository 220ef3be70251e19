namespace LeafScan.Records;

/// <summary>What a person wants on every client's note; null stands for "not told".</summary>
public sealed record NoteSettings
{
    /// <summary>Who writes notes.</summary>
    public string? By { get; init; }

    /// <summary>How to reach them.</summary>
    public string? Contact { get; init; }

    /// <summary>Country in whose form days are written, as two letters after ISO 3166; that of a client goes before it.</summary>
    public string? Country { get; init; }

    /// <summary>"metric" or "us"; null for us where the country is US, else metric.</summary>
    public string? Units { get; init; }

    /// <summary>"a4" or "letter"; null for letter in the US and Canada, else a4.</summary>
    public string? Paper { get; init; }

    /// <summary>Language of the words as a BCP 47 tag; null for English.</summary>
    public string? Language { get; init; }

    /// <summary>Headings in other words, by their keys.</summary>
    public IReadOnlyDictionary<string, string>? Words { get; init; }
}
