using System.Globalization;

namespace LeafScan.Cli.Screen;

/// <summary>A table of plain text: columns as wide as their widest cell, two blanks between, numbers to the right.</summary>
internal sealed class TextTable
{
    private readonly string[] _heads;
    private readonly bool[] _right;
    private readonly List<string[]> _rows = [];

    /// <summary>Starts a table.</summary>
    /// <param name="heads">Column heads; one that starts with "&gt;" is set to the right.</param>
    public TextTable(params string[] heads)
    {
        _right = [.. heads.Select(head => head.StartsWith('>'))];
        _heads = [.. heads.Select(head => head.TrimStart('>'))];
    }

    /// <summary>Adds a row with as many cells as there are heads.</summary>
    public void Add(params string[] cells)
    {
        if (cells.Length != _heads.Length)
        {
            throw new ArgumentException($"A row needs {_heads.Length} cells, not {cells.Length}.", nameof(cells));
        }

        _rows.Add([.. cells.Select(Words.OneLine)]);
    }

    /// <summary>Writes heads and rows without blanks at the ends of lines.</summary>
    public void WriteTo(TextWriter writer)
    {
        int[] widths = [.. _heads.Select((head, i) => _rows.Select(row => Width(row[i])).Append(Width(head)).Max())];
        foreach (string[] row in _rows.Prepend(_heads))
        {
            IEnumerable<string> cells = row.Select((cell, i) =>
                _right[i] ? new string(' ', widths[i] - Width(cell)) + cell : cell + new string(' ', widths[i] - Width(cell)));
            writer.WriteLine(string.Join("  ", cells).TrimEnd());
        }
    }

    // Letters with accents written as two characters still take one place.
    private static int Width(string text) => new StringInfo(text).LengthInTextElements;
}
