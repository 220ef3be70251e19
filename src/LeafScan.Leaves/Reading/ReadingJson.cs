using System.Text.Encodings.Web;
using System.Text.Json;

namespace LeafScan.Leaves.Reading;

/// <summary>
/// Writes and reads a <see cref="ReadingDocument"/> as JSON (schema leafscan.reading/1). Every door writes through here,
/// so that a reading looks the same wherever it comes from.
/// </summary>
/// <remarks>
/// Numbers are in invariant form and rounded to what they can mean (see <see cref="ReadingRounding"/>). Outlines and
/// speck centres are short arrays on one line: a leaf with thousands of specks stays readable in an editor. File names
/// in other scripts are written as themselves, not as escapes.
/// </remarks>
public static class ReadingJson
{
    /// <summary>Settings for readings alone or inside another document (camelCase names, compact coordinates).</summary>
    public static JsonSerializerOptions Options { get; } = CreateOptions();

    /// <summary>The document as text, rounded, ending without a line break.</summary>
    public static string Write(ReadingDocument document) =>
        JsonSerializer.Serialize(ReadingRounding.Round(document), Options);

    /// <summary>Writes the document, rounded, as UTF-8 without a byte order mark, ending with a line break.</summary>
    /// <param name="document">What to write.</param>
    /// <param name="stream">Where to; left open.</param>
    public static void Write(ReadingDocument document, Stream stream)
    {
        JsonSerializer.Serialize(stream, ReadingRounding.Round(document), Options);
        stream.WriteByte((byte)'\n');
    }

    /// <summary>Reads what <see cref="Write(ReadingDocument)"/> wrote.</summary>
    /// <exception cref="JsonException">The text is not such a document; the message says what is wrong.</exception>
    public static ReadingDocument Read(string json)
    {
        ReadingDocument document = JsonSerializer.Deserialize<ReadingDocument>(json, Options)
            ?? throw new JsonException("The document is empty (null) where a reading was expected.");
        if (document.Schema != ReadingDocument.CurrentSchema)
        {
            throw new JsonException(
                $"The document says schema \"{document.Schema}\"; only \"{ReadingDocument.CurrentSchema}\" can be read.");
        }

        return document;
    }

    private static JsonSerializerOptions CreateOptions()
    {
        JsonSerializerOptions options = new()
        {
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            WriteIndented = true,
            NewLine = "\n",
            Converters = { new OutlineConverter(), new SpeckMarksConverter(), new LeafSharesConverter(), new PhotoRefusalConverter() },
        };
        options.MakeReadOnly(populateMissingResolver: true);
        return options;
    }
}
