using System.Globalization;
using System.Text;

namespace LeafScan.Cli.Screen;

/// <summary>
/// A table as comma-separated text (RFC 4180: lines end in CR LF; a field with a comma, a quote or a line break is quoted,
/// quotes in it doubled), in UTF-8. Text that a spreadsheet would take for a formula gets an apostrophe before it; numbers
/// are left alone, so that -1.5 stays a number.
/// </summary>
internal sealed class CsvText
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

    /// <summary>Adds a row: texts, numbers, or null for an empty field.</summary>
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

    /// <summary>Writes the table to a file, or to standard output for "-".</summary>
    public void Write(Surroundings world, string target)
    {
        if (target == JsonOut.StandardOutput)
        {
            world.Out.Write(ToString());
            return;
        }

        SafeFile.Write(target, stream => stream.Write(Encoding.UTF8.GetBytes(ToString())));
    }

    private static string Field(object? value) => value switch
    {
        null => string.Empty,
        string text => Quoted(Safe(text)),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => Quoted(Safe(value.ToString() ?? string.Empty)),
    };

    // The first letters by which spreadsheets know a formula, also behind blanks (OWASP, "CSV Injection").
    private static string Safe(string text) =>
        text.Length > 0 && (text[0] is '\t' or '\r' or '\n' || text.TrimStart() is ['=' or '+' or '-' or '@', ..]) ? "'" + text : text;

    private static string Quoted(string text) =>
        text.AsSpan().IndexOfAny(",\"\r\n") < 0 ? text : "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
}
