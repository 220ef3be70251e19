using System.Text.Json;

namespace LeafScan.Records;

/// <summary>
/// The file <c>thresholds.json</c> in which thresholds stood beside the record before they were part of it (schema
/// leafscan.own-thresholds/1). It is taken in once and then put aside.
/// </summary>
internal static class ThresholdFile
{
    /// <summary>Name of the file in the data folder.</summary>
    public const string FileName = "thresholds.json";

    /// <summary>Name of the file once its thresholds are on record.</summary>
    public const string AsideName = "thresholds.json.taken-in";

    private const string Schema = "leafscan.own-thresholds/1";

    private static readonly JsonSerializerOptions Layout = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    /// <summary>Reads them; null without the file.</summary>
    /// <exception cref="RecordException">The file is there but cannot be read or is none of ours.</exception>
    public static IReadOnlyList<OwnThreshold>? Read(string dataFolder)
    {
        string file = Path.Combine(dataFolder, FileName);
        if (!File.Exists(file))
        {
            return null;
        }

        try
        {
            Stored stored = JsonSerializer.Deserialize<Stored>(File.ReadAllText(file), Layout) ?? throw new JsonException("empty");
            return stored.Schema == Schema && stored.Thresholds is { } all && all.All(IsWhole) ? all : throw new JsonException("other content");
        }
        catch (Exception error) when (error is FileNotFoundException or DirectoryNotFoundException)
        {
            // Another command took it in meanwhile.
            return null;
        }
        catch (Exception error) when (error is JsonException or IOException or UnauthorizedAccessException)
        {
            throw new RecordException(
                RecordTrouble.Damaged, $"The thresholds in {file} cannot be read.", "Your record is not touched.", "Mend or remove that file, then run this again.", error);
        }
    }

    /// <summary>Puts it aside under another name, for the person to look at or remove.</summary>
    /// <exception cref="RecordException">The folder cannot be written.</exception>
    public static void PutAside(string dataFolder)
    {
        string file = Path.Combine(dataFolder, FileName);
        try
        {
            File.Move(file, Path.Combine(dataFolder, AsideName), overwrite: true);
        }
        catch (FileNotFoundException)
        {
            // Another command was faster.
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RecordException(
                RecordTrouble.CannotWrite, $"The file {file} cannot be put aside.", "Its thresholds are in the record now.", "Remove the file, then run this again.", error);
        }
    }

    private static bool IsWhole(OwnThreshold? threshold)
        => threshold is { Measure.Length: > 0, Source: not null, Region: not null } && double.IsFinite(threshold.Value);

    private sealed record Stored(string? Schema, IReadOnlyList<OwnThreshold>? Thresholds);
}
