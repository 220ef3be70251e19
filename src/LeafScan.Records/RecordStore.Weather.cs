using Dapper;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Keeps the weather of a place, all days or none. A day that is on record stays as it is; the answer names those that differ.</summary>
    /// <param name="placeId">Place.</param>
    /// <param name="days">Days, each once.</param>
    public WeatherAdded AddWeather(long placeId, IReadOnlyList<WeatherDay> days) => Write(transaction =>
    {
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
                different.Add(day);
            }
        }

        return new WeatherAdded(added, same, different);
    });

    /// <summary>Weather of a place, oldest day first.</summary>
    /// <param name="placeId">Place.</param>
    /// <param name="first">First day; null for the earliest.</param>
    /// <param name="last">Last day; null for the latest.</param>
    public IReadOnlyList<WeatherDay> WeatherOfPlace(long placeId, DateOnly? first = null, DateOnly? last = null) => Read(connection => connection.Query<WeatherRow>(
        WeatherRow.Select, new { placeId, first = UtcText.Of(first ?? DateOnly.MinValue), last = UtcText.Of(last ?? DateOnly.MaxValue) }).Select(row => row.ToDay()).ToList());

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
