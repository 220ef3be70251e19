using System.Text;
using System.Text.Json;
using LeafScan.Frame.Sheets;

namespace LeafScan.Records;

/// <summary>What a person has told the tool about their own things, in the file <c>settings.json</c> of the data folder.</summary>
public sealed record Settings
{
    /// <summary>Name of the file in the data folder.</summary>
    public const string FileName = "settings.json";

    private const string Schema = "leafscan.settings/1";

    private static readonly JsonSerializerOptions Layout = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true };

    /// <summary>What the printer makes of 100 mm, in mm; 90 to 110; null when nobody has measured it, which counts as 100.</summary>
    public double? PrintedBarMm { get; init; }

    /// <summary>Units of length on the page, "mm" or "in"; null for mm.</summary>
    public string? Units { get; init; }

    /// <summary>How the page writes dates: "year-month-day", "day-month-year" or "month-day-year"; null for the browser's own form.</summary>
    public string? DateForm { get; init; }

    /// <summary>Who usually works at the page, kept with what they correct; null for not told.</summary>
    public string? Who { get; init; }

    /// <summary>The same as a factor.</summary>
    public PrintedScale PrintedScale => PrintedBarMm is { } mm ? new PrintedScale(mm / ScaleSheet.RulerMm) : PrintedScale.True;

    /// <summary>What goes into every client's note.</summary>
    public NoteSettings Note { get; init; } = new();

    /// <summary>Reads the settings; those of a folder without the file are the defaults.</summary>
    /// <param name="dataFolder">The data folder; need not exist.</param>
    /// <exception cref="RecordException">The file is there but cannot be read or is none of ours.</exception>
    public static Settings Load(string dataFolder)
    {
        string file = Path.Combine(dataFolder, FileName);
        try
        {
            return Read(File.ReadAllBytes(file)) ?? throw CannotBeRead(file, null);
        }
        catch (Exception error) when (error is FileNotFoundException or DirectoryNotFoundException)
        {
            return new Settings();
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw CannotBeRead(file, error);
        }
    }

    /// <summary>Reads the settings from the bytes of their file; null when they are none of ours.</summary>
    internal static Settings? Read(byte[] bytes)
    {
        try
        {
            using MemoryStream stream = new(bytes, writable: false);
            using StreamReader text = new(stream, new UTF8Encoding(false, throwOnInvalidBytes: true));
            return JsonSerializer.Deserialize<Stored>(text.ReadToEnd(), Layout) is { Schema: Schema } stored
                && stored.PrintedBarMm is null or (>= ScaleSheet.RulerMm * PrintedScale.Least and <= ScaleSheet.RulerMm * PrintedScale.Most)
                ? new Settings { PrintedBarMm = stored.PrintedBarMm, Units = stored.Units, DateForm = stored.DateForm, Who = stored.Who, Note = stored.Note ?? new NoteSettings() }
                : null;
        }
        catch (Exception error) when (error is JsonException or DecoderFallbackException)
        {
            return null;
        }
    }

    /// <summary>What is said of a file that cannot be read.</summary>
    internal static RecordException CannotBeRead(string file, Exception? error) => new(
        RecordTrouble.Damaged, $"The settings in {file} cannot be read.", "Your record is not touched.", "Mend or remove that file, then run this again.", error);

    /// <summary>Writes the settings whole or not at all.</summary>
    /// <param name="dataFolder">The data folder; made when missing.</param>
    /// <exception cref="RecordException">It cannot be written.</exception>
    public void Save(string dataFolder)
    {
        string file = Path.Combine(dataFolder, FileName);

        // A name of its own: two commands at once must not write into one another's file.
        string part = $"{file}.{Guid.NewGuid():n}.part";
        try
        {
            Directory.CreateDirectory(dataFolder);
            Stored stored = new(Schema, PrintedBarMm, Units, DateForm, Who, Note == new NoteSettings() ? null : Note);
            File.WriteAllText(part, JsonSerializer.Serialize(stored, Layout) + "\n");
            File.Move(part, file, overwrite: true);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RecordException(
                RecordTrouble.CannotWrite, $"The settings in {file} cannot be written.", "The old ones stand.", "Make room or choose another folder with --data-dir, then run this again.", error);
        }
        finally
        {
            if (File.Exists(part))
            {
                File.Delete(part);
            }
        }
    }

    private sealed record Stored(string? Schema, double? PrintedBarMm, string? Units, string? DateForm, string? Who, NoteSettings? Note);
}
