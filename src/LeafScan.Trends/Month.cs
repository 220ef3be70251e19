using System.Globalization;

namespace LeafScan.Trends;

/// <summary>A calendar month, written "2026-07".</summary>
/// <param name="Year">Year, 1 to 9999.</param>
/// <param name="Number">Month, 1 to 12.</param>
public readonly record struct Month(int Year, int Number)
{
    /// <summary>First day.</summary>
    public DateOnly FirstDay => new(Year, Number, 1);

    /// <summary>Last day.</summary>
    public DateOnly LastDay => new(Year, Number, DateTime.DaysInMonth(Year, Number));

    /// <summary>The month in which a day lies.</summary>
    public static Month Of(DateOnly day) => new(day.Year, day.Month);

    /// <summary>Reads "2026-07"; null when the text is no such month.</summary>
    public static Month? Parse(string? text)
        => text is { Length: 7 } && DateOnly.TryParseExact(text, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? Of(day) : null;

    /// <summary>Whether a day lies in this month.</summary>
    public bool Holds(DateOnly day) => day.Year == Year && day.Month == Number;

    /// <inheritdoc />
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}-{Number:00}");
}
