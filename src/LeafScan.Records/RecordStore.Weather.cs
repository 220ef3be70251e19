using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Keeps the weather of a place, all days or none. A day that is on record stays as it is; the answer names those that differ.</summary>
    /// <param name="placeId">Place.</param>
    /// <param name="days">Days, each once.</param>
    /// <param name="replaceBecause">Why days with other figures are replaced, the old ones kept among the edits; null leaves them as they are.</param>
    public WeatherAdded AddWeather(long placeId, IReadOnlyList<WeatherDay> days, string? replaceBecause = null) => Write(transaction =>
    {
        ChangeNote? note = replaceBecause is null ? null : new ChangeNote(transaction, replaceBecause, Now());
        Dictionary<DateOnly, WeatherDay> known = transaction.Connection!.Query<WeatherRow>(WeatherRow.Select, new { placeId, first = "0000", last = "9999" }, transaction)
            .Select(row => row.ToDay()).ToDictionary(day => day.Day);
        string now = Now();
        int added = 0, same = 0;
        List<WeatherDay> different = [];
        foreach (WeatherDay day in days)
        {
            if (!known.TryGetValue(day.Day, out WeatherDay? old))
            {
                transaction.Connection!.Execute(
                    "INSERT INTO weather (place_id, day, low_c, high_c, source, recorded_utc) VALUES (@placeId, @date, @LowC, @HighC, @Source, @now)",
                    new { placeId, date = UtcText.Of(day.Day), day.LowC, day.HighC, day.Source, now }, transaction);
                known[day.Day] = day;
                added++;
            }
            else if (Math.Abs(old.LowC - day.LowC) < 0.005 && Math.Abs(old.HighC - day.HighC) < 0.005)
            {
                same++;
            }
            else
            {
                different.Add(note is null ? day : old);
                if (note is not null)
                {
                    PutWeather(transaction, placeId, UtcText.Of(day.Day), "low_c", Number(day.LowC), note, Number(old.LowC));
                    PutWeather(transaction, placeId, UtcText.Of(day.Day), "high_c", Number(day.HighC), note, Number(old.HighC));
                    PutWeather(transaction, placeId, UtcText.Of(day.Day), "source", day.Source, note, old.Source);
                }
            }
        }

        return new WeatherAdded(added, same, different, note is not null);
    });

    /// <summary>Weather of a place, oldest day first.</summary>
    /// <param name="placeId">Place.</param>
    /// <param name="first">First day; null for the earliest.</param>
    /// <param name="last">Last day; null for the latest.</param>
    public IReadOnlyList<WeatherDay> WeatherOfPlace(long placeId, DateOnly? first = null, DateOnly? last = null) => Read(connection => connection.Query<WeatherRow>(
        WeatherRow.Select, new { placeId, first = UtcText.Of(first ?? DateOnly.MinValue), last = UtcText.Of(last ?? DateOnly.MaxValue) }).Select(row => row.ToDay()).ToList());

    // Lowest and highest are set one after the other; in between they may lie the wrong way round, which the table would refuse.
    private static void PutWeather(SqliteTransaction transaction, long placeId, string day, string column, string? value, ChangeNote? note, string? old)
    {
        if (column == "source")
        {
            transaction.Connection!.Execute("UPDATE weather SET source = @value WHERE place_id = @placeId AND day = @day", new { placeId, day, value }, transaction);
        }
        else
        {
            string other = column == "low_c" ? "high_c = max(high_c, @number)" : "low_c = min(low_c, @number)";
            transaction.Connection!.Execute(
                $"UPDATE weather SET {column} = @number, {other} WHERE place_id = @placeId AND day = @day", new { placeId, day, number = double.Parse(value!, CultureInfo.InvariantCulture) }, transaction);
        }

        note?.Keep("weather", placeId, $"{day} {column}", old, value);
    }

    // A day of weather has no number of its own: it stands in the field's name beside the place.
    private static (string Day, string Column)? WeatherField(string field) => field.Split(' ') is [{ Length: 10 } day, "low_c" or "high_c" or "source"] parts ? (day, parts[1]) : null;

    private static string Number(double value) => value.ToString(CultureInfo.InvariantCulture);

    private sealed class WeatherRow
    {
        public const string Select =
            "SELECT day AS Day, low_c AS LowC, high_c AS HighC, source AS Source FROM weather WHERE place_id = @placeId AND day BETWEEN @first AND @last ORDER BY day";

        public string Day { get; init; } = "";

        public double LowC { get; init; }

        public double HighC { get; init; }

        public string Source { get; init; } = "";

        public WeatherDay ToDay() => new(UtcText.Date(Day), LowC, HighC, Source);
    }
}
