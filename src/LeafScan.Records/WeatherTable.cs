using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace LeafScan.Records;

/// <summary>Reads a table of days with lowest and highest temperature. All of it is read and checked before anything is kept.</summary>
public static class WeatherTable
{
    private const int ProblemsShown = 5, HeadsShown = 80;

    /// <summary>Reads the file.</summary>
    /// <param name="path">CSV with a head line that names date, min and max (also: low, high, tmin, tmax), in any order; comma or semicolon.</param>
    /// <param name="isFahrenheit">Whether the figures are in °F.</param>
    /// <exception cref="RecordException">The file cannot be read, or a line makes no sense.</exception>
    public static IReadOnlyList<WeatherDay> Read(string path, bool isFahrenheit)
    {
        try
        {
            using StreamReader reader = new(path);
            return Read(reader, Path.GetFileName(path), isFahrenheit);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw Refused($"The weather file \"{path}\" cannot be read.", "Check the name and the folder.", error);
        }
    }

    /// <summary>The same from text.</summary>
    /// <param name="text">The table.</param>
    /// <param name="name">Its name, for messages and as the source of its days.</param>
    /// <param name="isFahrenheit">Whether the figures are in °F.</param>
    /// <exception cref="RecordException">A line makes no sense.</exception>
    public static IReadOnlyList<WeatherDay> Read(TextReader text, string name, bool isFahrenheit)
    {
        CsvConfiguration layout = new(CultureInfo.InvariantCulture)
        {
            DetectDelimiter = true,
            DetectDelimiterValues = [",", ";", "\t"],
            TrimOptions = TrimOptions.Trim,
            BadDataFound = null,
            MissingFieldFound = null,
        };
        using CsvReader csv = new(text, layout);
        if (!csv.Read() || !csv.ReadHeader())
        {
            throw Refused($"The weather file {name} is empty.", "It needs a line date,min,max and a line a day.");
        }

        string[] heads = [.. csv.HeaderRecord!.Select(head => head.Trim().ToLowerInvariant())];
        (int date, int min, int max) = (Column(heads, "date", "day"), Column(heads, "min", "low", "tmin", "minc", "minf"), Column(heads, "max", "high", "tmax", "maxc", "maxf"));
        if (date < 0 || min < 0 || max < 0)
        {
            throw Refused($"The first line of {name} must name the columns date, min and max; it has: {Shown(heads)}.", "Mend the file and run the command again.");
        }

        Dictionary<DateOnly, WeatherDay> days = [];
        List<string> faults = [];
        while (csv.Read())
        {
            Take(csv, (date, min, max), isFahrenheit, name, days, faults);
        }

        if (faults.Count > 0)
        {
            string more = faults.Count > ProblemsShown ? $" and {faults.Count - ProblemsShown} more" : string.Empty;
            throw Refused($"{name}: {string.Join("; ", faults.Take(ProblemsShown))}{more}.", "Mend the file and run the command again.");
        }

        return days.Count > 0
            ? [.. days.Values.OrderBy(day => day.Day)]
            : throw Refused($"The weather file {name} has no day in it.", "It needs a line a day.");
    }

    private static void Take(CsvReader csv, (int Date, int Min, int Max) at, bool isFahrenheit, string name, Dictionary<DateOnly, WeatherDay> days, List<string> faults)
    {
        string line = string.Create(CultureInfo.InvariantCulture, $"line {csv.Parser.Row}");
        string? dayText = csv.GetField(at.Date), lowText = csv.GetField(at.Min), highText = csv.GetField(at.Max);
        if (!DateOnly.TryParseExact(dayText, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day))
        {
            faults.Add($"{line} has no day such as 2026-07-02 but \"{dayText}\"");
            return;
        }

        if (Degrees(lowText, isFahrenheit) is not { } low || Degrees(highText, isFahrenheit) is not { } high)
        {
            faults.Add($"{line} has no two temperatures but \"{lowText}\" and \"{highText}\"");
            return;
        }

        WeatherDay found = new(day, low, high, name);
        string? fault =
            low > high ? $"{line} has a lowest temperature above its highest"
            : low < -90 || high > 60 ? $"{line} has temperatures that no place on earth has{(isFahrenheit ? string.Empty : "; if they are in °F, add --unit F")}"
            : days.TryGetValue(day, out WeatherDay? twin) && (twin.LowC, twin.HighC) != (low, high) ? $"{line} gives {dayText} a second time, with other figures"
            : null;
        if (fault is not null)
        {
            faults.Add(fault);
        }
        else
        {
            days[day] = found;
        }
    }

    private static RecordException Refused(string happened, string next, Exception? cause = null) => new(RecordTrouble.WrongValue, happened, "Nothing was added.", next, cause);

    // What stands in a file that is no table may be anything.
    private static string Shown(string[] heads)
    {
        string all = string.Join(", ", heads);
        return all.Length <= HeadsShown ? all : all[..HeadsShown] + "...";
    }

    private static int Column(string[] heads, params string[] names) => Array.FindIndex(heads, names.Contains);

    private static double? Degrees(string? text, bool isFahrenheit)
        => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value)
            ? Math.Round(isFahrenheit ? (value - 32) / 1.8 : value, 3)
            : null;
}
