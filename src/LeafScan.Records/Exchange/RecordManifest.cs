namespace LeafScan.Records.Exchange;

/// <summary>What a file of a whole record holds: its entry record.json (schema leafscan.record/1).</summary>
internal sealed record RecordManifest
{
    /// <summary>Name of the schema.</summary>
    public const string SchemaName = "leafscan.record/1";

    /// <summary>Name of the entry.</summary>
    public const string EntryName = "record.json";

    /// <summary>The schema.</summary>
    public string? Schema { get; init; }

    /// <summary>Version of the tool that wrote it.</summary>
    public string? Tool { get; init; }

    /// <summary>Layout of the record.</summary>
    public int Layout { get; init; }

    /// <summary>Hash over the tables' hashes: two records with the same content have the same.</summary>
    public string? Sha256 { get; init; }

    /// <summary>The tables, by name; each is an entry NAME.jsonl.</summary>
    public IReadOnlyList<TableEntry> Tables { get; init; } = [];

    /// <summary>Files of the data folder that belong to the record and are no table, such as the settings; each is an entry of its name. Absent where there is none.</summary>
    [System.Text.Json.Serialization.JsonIgnore(Condition = System.Text.Json.Serialization.JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<FileEntry>? Files { get; init; }
}

/// <summary>One file of the data folder.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Sha256">SHA-256 of its bytes.</param>
internal sealed record FileEntry(string Name, string Sha256);

/// <summary>One table of the file.</summary>
/// <param name="Name">Name.</param>
/// <param name="Columns">Columns, in the order of the values of each row.</param>
/// <param name="Rows">Number of rows.</param>
/// <param name="Sha256">SHA-256 of its entry.</param>
internal sealed record TableEntry(string Name, IReadOnlyList<string> Columns, long Rows, string Sha256);
