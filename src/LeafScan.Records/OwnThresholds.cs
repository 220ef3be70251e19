using System.Text.Json;

namespace LeafScan.Records;

/// <summary>A threshold that the person set.</summary>
/// <param name="Measure">Name of the measure, such as "mites-per-tap".</param>
/// <param name="Value">The number; shares 0..1.</param>
/// <param name="Plants">Genus or species; null for all.</param>
/// <param name="Client">Client; null for all.</param>
/// <param name="Region">Where it comes from; empty when not told.</param>
/// <param name="Source">Who says so.</param>
public sealed record OwnThreshold(string Measure, double Value, string? Plants, string? Client, string Region, string Source);

/// <summary>The person's own thresholds, in the file <c>thresholds.json</c> of the data folder (schema leafscan.own-thresholds/1).</summary>
public static class OwnThresholds
{
    /// <summary>Name of the file in the data folder.</summary>
    public const string FileName = "thresholds.json";

    private const string Schema = "leafscan.own-thresholds/1";

    private static readonly JsonSerializerOptions Layout = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Reads them; a folder without the file has none.</summary>
    /// <param name="dataFolder">The data folder; need not exist.</param>
    /// <exception cref="RecordException">The file is there but cannot be read or is none of ours.</exception>
    public static IReadOnlyList<OwnThreshold> Load(string dataFolder)
    {
        string file = Path.Combine(dataFolder, FileName);
        try
        {
            Stored stored = JsonSerializer.Deserialize<Stored>(File.ReadAllText(file), Layout) ?? throw new JsonException("empty");
            return stored.Schema == Schema && stored.Thresholds is { } all && all.All(IsWhole) ? all : throw new JsonException("other content");
        }
        catch (Exception error) when (error is FileNotFoundException or DirectoryNotFoundException)
        {
            return [];
        }
        catch (Exception error) when (error is JsonException or IOException or UnauthorizedAccessException)
        {
            throw new RecordException(
                RecordTrouble.Damaged, $"The thresholds in {file} cannot be read.", "Your record is not touched.", "Mend or remove that file, then run this again.", error);
        }
    }

    /// <summary>Writes them whole or not at all.</summary>
    /// <param name="dataFolder">The data folder; made when missing.</param>
    /// <param name="thresholds">All of them.</param>
    /// <exception cref="RecordException">They cannot be written.</exception>
    public static void Save(string dataFolder, IReadOnlyList<OwnThreshold> thresholds)
    {
        string file = Path.Combine(dataFolder, FileName);

        // A name of its own: two commands at once must not write into one another's file.
        string part = $"{file}.{Guid.NewGuid():n}.part";
        try
        {
            Directory.CreateDirectory(dataFolder);
            File.WriteAllText(part, JsonSerializer.Serialize(new Stored(Schema, thresholds), Layout) + "\n");
            File.Move(part, file, overwrite: true);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RecordException(
                RecordTrouble.CannotWrite, $"The thresholds in {file} cannot be written.", "The old ones stand.", "Make room or choose another folder with --data-dir, then run this again.", error);
        }
        finally
        {
            if (File.Exists(part))
            {
                File.Delete(part);
            }
        }
    }

    private static bool IsWhole(OwnThreshold? threshold)
        => threshold is { Measure.Length: > 0, Source: not null, Region: not null } && double.IsFinite(threshold.Value);

    private sealed record Stored(string? Schema, IReadOnlyList<OwnThreshold>? Thresholds);
}
