namespace LeafScan.Notes.Client;

/// <summary>The headings of a note. Each can be put in other words or in another language.</summary>
public sealed record NoteWords
{
    private static readonly Dictionary<string, (Func<NoteWords, string> Get, Func<NoteWords, string, NoteWords> Set)> ByKey = new(StringComparer.Ordinal)
    {
        ["title"] = (words => words.Title, (words, text) => words with { Title = text }),
        ["for"] = (words => words.For, (words, text) => words with { For = text }),
        ["by"] = (words => words.By, (words, text) => words with { By = text }),
        ["seen"] = (words => words.Seen, (words, text) => words with { Seen = text }),
        ["last-time"] = (words => words.LastTime, (words, text) => words with { LastTime = text }),
        ["care"] = (words => words.Care, (words, text) => words with { Care = text }),
        ["chart"] = (words => words.Chart, (words, text) => words with { Chart = text }),
        ["done"] = (words => words.Done, (words, text) => words with { Done = text }),
        ["next"] = (words => words.Next, (words, text) => words with { Next = text }),
        ["cautions"] = (words => words.Cautions, (words, text) => words with { Cautions = text }),
        ["measured"] = (words => words.Measured, (words, text) => words with { Measured = text }),
        ["limits"] = (words => words.Limits, (words, text) => words with { Limits = text }),
        ["plants"] = (words => words.Plants, (words, text) => words with { Plants = text }),
    };

    /// <summary>Every heading's key, as the settings name it.</summary>
    public static IReadOnlyList<string> Keys { get; } = [.. ByKey.Keys];

    /// <summary>What the page is.</summary>
    public string Title { get; init; } = "Plant note";

    /// <summary>Before the client's name.</summary>
    public string For { get; init; } = "For";

    /// <summary>Before the name of who wrote it.</summary>
    public string By { get; init; } = "By";

    /// <summary>What was seen.</summary>
    public string Seen { get; init; } = "What was seen";

    /// <summary>The walk before.</summary>
    public string LastTime { get; init; } = "Last time";

    /// <summary>What the record says about the care.</summary>
    public string Care { get; init; } = "How it is going";

    /// <summary>Over the chart.</summary>
    public string Chart { get; init; } = "Damage, walk by walk";

    /// <summary>What was done.</summary>
    public string Done { get; init; } = "What was done";

    /// <summary>What comes next.</summary>
    public string Next { get; init; } = "What comes next";

    /// <summary>Cautions.</summary>
    public string Cautions { get; init; } = "Please mind";

    /// <summary>How it was measured.</summary>
    public string Measured { get; init; } = "How it was measured";

    /// <summary>What it cannot say.</summary>
    public string Limits { get; init; } = "What it cannot say";

    /// <summary>Over the table of a place's plants.</summary>
    public string Plants { get; init; } = "Plant by plant";

    /// <summary>The text of a heading.</summary>
    /// <param name="key">One of <see cref="Keys"/>.</param>
    public string this[string key] => ByKey[key].Get(this);

    /// <summary>These words with some replaced.</summary>
    /// <param name="words">Key and text; unknown keys and empty texts are passed over.</param>
    public NoteWords With(IEnumerable<KeyValuePair<string, string>> words) => words
        .Where(word => ByKey.ContainsKey(word.Key) && !string.IsNullOrWhiteSpace(word.Value))
        .Aggregate(this, (all, word) => ByKey[word.Key].Set(all, word.Value.Trim()));
}
