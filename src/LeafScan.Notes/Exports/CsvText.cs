using System.Globalization;
using System.Text;

namespace LeafScan.Notes.Exports;

/// <summary>
/// A table as comma-separated text (RFC 4180: lines end in CR LF; a field with a comma, a quote or a line break is quoted,
/// quotes in it doubled), in UTF-8. Text that a spreadsheet would take for a formula gets an apostrophe before it; numbers
/// are left alone, so that -1.5 stays a number (the CSV library at hand guards numbers too and would spoil them).
/// </summary>
public sealed class CsvText
{
    private readonly StringBuilder _text = new();
    private readonly int _columns;

    /// <summary>Starts a table.</summary>
    /// <param name="heads">Column heads.</param>
    public CsvText(params string[] heads)
    {
        _columns = heads.Length;
        Add([.. heads]);
    }

    /// <summary>Adds a row: texts, numbers, days, or null for an empty field.</summary>
    /// <exception cref="ArgumentException">It has more or fewer fields than there are heads.</exception>
    public void Add(params object?[] fields)
    {
        if (fields.Length != _columns)
        {
            throw new ArgumentException($"A row needs {_columns} fields, not {fields.Length}.", nameof(fields));
        }

        _text.AppendJoin(',', fields.Select(Field)).Append("\r\n");
    }

    /// <inheritdoc />
    public override string ToString() => _text.ToString();

    private static string Field(object? value) => value switch
    {
        null => string.Empty,
        string text => Quoted(Safe(text)),
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        double number => number.ToString("0.##########", CultureInfo.InvariantCulture),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => Quoted(Safe(value.ToString() ?? string.Empty)),
    };

    // The first letters by which spreadsheets know a formula, also behind blanks and in their full-width form (OWASP, "CSV Injection").
    private static string Safe(string text) =>
        text.Length > 0 && (text[0] is '\t' or '\r' or '\n' || text.TrimStart() is ['=' or '+' or '-' or '@' or '\uFF1D' or '\uFF0B' or '\uFF0D' or '\uFF20', ..]) ? "'" + text : text;

    private static string Quoted(string text) =>
        text.AsSpan().IndexOfAny(",\"\r\n") < 0 ? text : "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
}
