using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using LeafScan.Photos;

namespace LeafScan.Leaves.Reading;

/// <summary>An outline as [[x, y], …] on one line.</summary>
internal sealed class OutlineConverter : JsonConverter<IReadOnlyList<PointPx>>
{
    public override IReadOnlyList<PointPx> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        [.. NumberRows.Read(ref reader, 2).Select(row => new PointPx((int)Math.Round(row[0]), (int)Math.Round(row[1])))];

    public override void Write(Utf8JsonWriter writer, IReadOnlyList<PointPx> value, JsonSerializerOptions options) =>
        NumberRows.Write(writer, value.Select(point => new double[] { point.X, point.Y }));
}

/// <summary>Specks as [[x, y, diameterPx], …] on one line.</summary>
internal sealed class SpeckMarksConverter : JsonConverter<IReadOnlyList<SpeckMark>>
{
    public override IReadOnlyList<SpeckMark> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        [.. NumberRows.Read(ref reader, 3).Select(row => new SpeckMark(row[0], row[1], row[2]))];

    public override void Write(Utf8JsonWriter writer, IReadOnlyList<SpeckMark> value, JsonSerializerOptions options) =>
        NumberRows.Write(writer, value.Select(speck => new[] { speck.X, speck.Y, speck.DiameterPx }));
}

/// <summary>Shares without the damage that can be computed from them.</summary>
internal sealed class LeafSharesConverter : JsonConverter<LeafShares>
{
    private sealed record Plain(double Sound, double Stippled, double Yellowed, double Browned, double Chewed, double Unassessed);

    public override LeafShares Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        Plain plain = JsonSerializer.Deserialize<Plain>(ref reader, options) ?? throw new JsonException("Shares are null.");
        return new LeafShares(plain.Sound, plain.Stippled, plain.Yellowed, plain.Browned, plain.Chewed, plain.Unassessed);
    }

    public override void Write(Utf8JsonWriter writer, LeafShares value, JsonSerializerOptions options) =>
        JsonSerializer.Serialize(
            writer,
            new Plain(value.Sound, value.Stippled, value.Yellowed, value.Browned, value.Chewed, value.Unassessed),
            options);
}

/// <summary>A refusal with its file under "file", as a photo has it.</summary>
internal sealed class PhotoRefusalConverter : JsonConverter<PhotoRefusal>
{
    private sealed record Plain(string File, string Reason, string Advice);

    public override PhotoRefusal Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        Plain plain = JsonSerializer.Deserialize<Plain>(ref reader, options) ?? throw new JsonException("A refusal is null.");
        return new PhotoRefusal(plain.File, plain.Reason, plain.Advice);
    }

    public override void Write(Utf8JsonWriter writer, PhotoRefusal value, JsonSerializerOptions options) =>
        JsonSerializer.Serialize(writer, new Plain(value.FileName, value.Reason, value.Advice), options);
}

/// <summary>Rows of numbers such as [[1, 2], [3, 4]], written without line breaks.</summary>
internal static class NumberRows
{
    public static List<double[]> Read(ref Utf8JsonReader reader, int length)
    {
        // Spelled out rather than left to the serializer: that would come back to the converter which called here.
        List<double[]> rows = [];
        Expect(ref reader, JsonTokenType.StartArray);
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            Expect(ref reader, JsonTokenType.StartArray);
            double[] row = new double[length];
            for (int i = 0; i < length; i++)
            {
                reader.Read();
                Expect(ref reader, JsonTokenType.Number);
                row[i] = reader.GetDouble();
            }

            reader.Read();
            Expect(ref reader, JsonTokenType.EndArray);
            rows.Add(row);
        }

        return rows;
    }

    public static void Write(Utf8JsonWriter writer, IEnumerable<double[]> rows)
    {
        StringBuilder text = new("[");
        foreach (double[] row in rows)
        {
            text.Append(text.Length > 1 ? ", [" : "[");
            for (int i = 0; i < row.Length; i++)
            {
                // "R" would write 1E-05 for tiny numbers, which JSON allows as well; NaN it does not, hence the check.
                if (!double.IsFinite(row[i]))
                {
                    throw new ArgumentException("A coordinate is not a finite number.", nameof(rows));
                }

                text.Append(i > 0 ? ", " : string.Empty).Append(row[i].ToString(CultureInfo.InvariantCulture));
            }

            text.Append(']');
        }

        writer.WriteRawValue(text.Append(']').ToString(), skipInputValidation: true);
    }

    private static void Expect(ref Utf8JsonReader reader, JsonTokenType type)
    {
        if (reader.TokenType != type)
        {
            throw new JsonException($"Expected {type} in a list of coordinates, found {reader.TokenType}.");
        }
    }
}
