using System.Globalization;
using System.Text;

namespace LeafScan.Web.Api;

/// <summary>A table as RFC 4180 has it. A text that a spreadsheet would take for a formula gets an apostrophe before it; numbers stay numbers.</summary>
internal sealed class CsvText
{
    private readonly StringBuilder _text = new();

    public CsvText(params string[] heads) => Add([.. heads]);

    /// <summary>Adds a row of texts, whole numbers, shares and days; null is an empty field.</summary>
    public void Add(params object?[] fields) => _text.AppendJoin(',', fields.Select(Field)).Append("\r\n");

    /// <inheritdoc />
    public override string ToString() => _text.ToString();

    private static string Field(object? value) => value switch
    {
        null => "",
        string text => Quoted(text),
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => Quoted(value.ToString() ?? ""),
    };

    private static string Quoted(string text)
    {
        // What starts a formula in the usual spreadsheets, by OWASP's list "CSV Injection".
        string safe = text.Length > 0 && text[0] is ('=' or '+' or '-' or '@' or '\t' or '\r' or '\uFF1D' or '\uFF0B' or '\uFF0D' or '\uFF20') ? "'" + text : text;
        return safe.IndexOfAny([',', '"', '\r', '\n']) < 0 ? safe : $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
    }
}
