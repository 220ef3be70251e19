using System.Globalization;

namespace LeafScan.Records;

/// <summary>Times and dates as the store keeps them: text that sorts as time does.</summary>
internal static class UtcText
{
    private const string TimeFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";
    private const string DateFormat = "yyyy-MM-dd";

    public static string Of(DateTimeOffset time) => time.UtcDateTime.ToString(TimeFormat, CultureInfo.InvariantCulture);

    public static string Of(DateOnly date) => date.ToString(DateFormat, CultureInfo.InvariantCulture);

    public static DateTimeOffset Time(string text)
        => DateTimeOffset.ParseExact(text, TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal);

    public static DateTimeOffset? TimeOrNull(string? text) => text is null ? null : Time(text);

    public static DateOnly Date(string text) => DateOnly.ParseExact(text, DateFormat, CultureInfo.InvariantCulture);

    public static DateOnly? DateOrNull(string? text) => text is null ? null : Date(text);
}
