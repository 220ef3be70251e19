using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using LeafScan.Leaves.Reading;

namespace LeafScan.Records;

/// <summary>Lists kept as compact JSON text in the same form as in the reading document, so that other readers of the file can use them.</summary>
internal static class ShapeText
{
    // Only quotes and control characters are escaped: the text stays readable in a database shell.
    private static readonly JsonWriterOptions Compact = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Of(IReadOnlyList<string> names) => Write(writer => Names(writer, names));

    public static string Of(IReadOnlyList<PointPx> outline) => Write(writer =>
    {
        writer.WriteStartArray();
        foreach (PointPx corner in outline)
        {
            writer.WriteStartArray();
            writer.WriteNumberValue(corner.X);
            writer.WriteNumberValue(corner.Y);
            writer.WriteEndArray();
        }

        writer.WriteEndArray();
    });

    /// <summary>Specks with one decimal: a tenth of a pixel is finer than any measurement here.</summary>
    public static string Of(IReadOnlyList<SpeckMark> specks) => Write(writer =>
    {
        writer.WriteStartArray();
        foreach (SpeckMark speck in specks)
        {
            writer.WriteStartArray();
            writer.WriteNumberValue(Math.Round(speck.X, 1));
            writer.WriteNumberValue(Math.Round(speck.Y, 1));
            writer.WriteNumberValue(Math.Round(speck.DiameterPx, 1));
            writer.WriteEndArray();
        }

        writer.WriteEndArray();
    });

    public static string Of(IReadOnlyList<LeafCause> causes) => Write(writer =>
    {
        writer.WriteStartArray();
        foreach (LeafCause cause in causes)
        {
            writer.WriteStartObject();
            writer.WriteString("cause", cause.Cause);
            writer.WriteNumber("score", Math.Round(cause.Score, 4));
            writer.WritePropertyName("because");
            Names(writer, cause.Because);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    });

    /// <summary>Sectors of a crown, shares with four digits as in the reading document.</summary>
    public static string Of(IReadOnlyList<CrownSector> sectors) => Write(writer =>
    {
        writer.WriteStartArray();
        foreach (CrownSector sector in sectors)
        {
            writer.WriteStartObject();
            writer.WriteString("side", sector.Side);
            writer.WriteString("height", sector.Height);
            Share(writer, "discoloured", sector.Discoloured);
            Share(writer, "thinning", sector.Thinning);
            Share(writer, "greenness", sector.Greenness);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    });

    public static IReadOnlyList<string> ReadNames(string json) => json == "[]" ? [] : JsonSerializer.Deserialize<string[]>(json)!;

    public static IReadOnlyList<PointPx> ReadOutline(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return [.. document.RootElement.EnumerateArray().Select(corner => new PointPx(corner[0].GetInt32(), corner[1].GetInt32()))];
    }

    public static IReadOnlyList<SpeckMark> ReadSpecks(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return [.. document.RootElement.EnumerateArray().Select(speck => new SpeckMark(speck[0].GetDouble(), speck[1].GetDouble(), speck[2].GetDouble()))];
    }

    public static IReadOnlyList<LeafCause> ReadCauses(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return [.. document.RootElement.EnumerateArray().Select(cause => new LeafCause(
            cause.GetProperty("cause").GetString()!,
            cause.GetProperty("score").GetDouble(),
            [.. cause.GetProperty("because").EnumerateArray().Select(reason => reason.GetString()!)]))];
    }

    public static IReadOnlyList<CrownSector> ReadSectors(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return [.. document.RootElement.EnumerateArray().Select(sector => new CrownSector(
            sector.GetProperty("side").GetString()!,
            sector.GetProperty("height").GetString()!,
            ShareOf(sector, "discoloured"),
            sector.GetProperty("thinning").GetDouble(),
            ShareOf(sector, "greenness")))];
    }

    private static double? ShareOf(JsonElement sector, string name) => sector.GetProperty(name) is { ValueKind: not JsonValueKind.Null } share ? share.GetDouble() : null;

    private static void Share(Utf8JsonWriter writer, string name, double? share)
    {
        if (share is { } known)
        {
            writer.WriteNumber(name, Math.Round(known, 4));
        }
        else
        {
            writer.WriteNull(name);
        }
    }

    private static void Names(Utf8JsonWriter writer, IReadOnlyList<string> names)
    {
        writer.WriteStartArray();
        foreach (string name in names)
        {
            writer.WriteStringValue(name);
        }

        writer.WriteEndArray();
    }

    private static string Write(Action<Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream, Compact))
        {
            write(writer);
        }

        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length);
    }
}
