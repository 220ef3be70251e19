using LeafScan.Leaves;

namespace LeafScan.Notes.Exports;

/// <summary>
/// A table that leaves the record: the same columns as CSV for spreadsheets and as JSON for programs, so that the two never say
/// different things. Shares and damage are 0 to 1, lengths in pixels or mm as the column's name says, days as 2026-07-02; an empty
/// field and null mean "not known".
/// </summary>
/// <param name="Schema">Name of the JSON form, such as leafscan.readings/1.</param>
/// <param name="RowsName">What the rows are called in it.</param>
/// <param name="Columns">Names of the columns in camel case.</param>
public sealed record ExportTable(string Schema, string RowsName, IReadOnlyList<string> Columns)
{
    private readonly List<object?[]> _rows = [];

    /// <summary>What is said once in the JSON form, before the rows; empty by default.</summary>
    public IReadOnlyDictionary<string, object?> About { get; init; } = new Dictionary<string, object?>();

    /// <summary>The rows: texts, numbers, truths, days, lists of words, or null.</summary>
    public IReadOnlyList<object?[]> Rows => _rows;

    /// <summary>Adds a row.</summary>
    /// <exception cref="ArgumentException">It has more or fewer fields than there are columns.</exception>
    public void Add(params object?[] fields)
    {
        if (fields.Length != Columns.Count)
        {
            throw new ArgumentException($"A row needs {Columns.Count} fields, not {fields.Length}.", nameof(fields));
        }

        _rows.Add(fields);
    }

    /// <summary>As CSV; a list of words is one field with blanks between, as no word has one.</summary>
    public CsvText ToCsv()
    {
        CsvText csv = new([.. Columns]);
        foreach (object?[] row in _rows)
        {
            csv.Add([.. row.Select(field => field switch
            {
                IEnumerable<string> words => string.Join(' ', words),
                bool truth => truth ? "yes" : "no",
                _ => field,
            })]);
        }

        return csv;
    }

    /// <summary>As a document, to be written as JSON.</summary>
    public object ToDocument()
    {
        Dictionary<string, object?> document = new() { ["schema"] = Schema, ["tool"] = ToolVersion.Current };
        foreach ((string name, object? value) in About)
        {
            document[name] = value;
        }

        document[RowsName] = _rows.ConvertAll(row => Columns.Zip(row).ToDictionary(pair => pair.First, pair => pair.Second));
        return document;
    }

    // Six digits are more than any of it can mean.
    internal static double? Round(double? value) => value is { } number ? Math.Round(number, 6) : null;
}
