using System.Collections.Frozen;
using System.Globalization;

namespace LeafScan.Notes.Client;

/// <summary>How a day is written.</summary>
public enum DateForm
{
    /// <summary>2 July 2026.</summary>
    DayMonthInWords,

    /// <summary>July 2, 2026.</summary>
    MonthInWordsDay,

    /// <summary>02.07.2026.</summary>
    Dots,

    /// <summary>02/07/2026.</summary>
    Slashes,

    /// <summary>02-07-2026.</summary>
    Dashes,

    /// <summary>2026-07-02 (ISO 8601).</summary>
    YearFirst,
}

/// <summary>Days in the form of a country.</summary>
public static class DateForms
{
    // Numeric forms as the locale data of the GNU C library has them (field d_fmt), year in full; AT and CZ by common practice, English-speaking countries in words.
    private static readonly FrozenDictionary<string, DateForm> ByCountry = new (DateForm Form, string Countries)[]
    {
        (DateForm.MonthInWordsDay, "US PH"),
        (DateForm.DayMonthInWords, "GB IE AU NZ ZA IN"),
        (DateForm.Dots, "DE AT CH LU CZ SK PL FI RU UA RO EE"),
        (DateForm.Slashes, "FR IT ES PT GR BR"),
        (DateForm.Dashes, "NL DK"),
        (DateForm.YearFirst, "CA SE LT HU"),
    }.SelectMany(row => row.Countries.Split(' ').Select(country => (country, row.Form))).ToFrozenDictionary(pair => pair.country, pair => pair.Form);

    /// <summary>Countries with a form of their own, as ISO 3166 codes.</summary>
    public static IReadOnlyList<string> Countries { get; } = [.. ByCountry.Keys.Order(StringComparer.Ordinal)];

    /// <summary>The form of a country; of others the one that cannot be misread, the month in words.</summary>
    /// <param name="country">Two letters after ISO 3166, in any case; null when not known.</param>
    public static DateForm Of(string? country) => country is not null && ByCountry.TryGetValue(country.ToUpperInvariant(), out DateForm form) ? form : DateForm.DayMonthInWords;

    /// <summary>A day in a form.</summary>
    public static string Write(this DateForm form, DateOnly day) => day.ToString(
        form switch
        {
            DateForm.MonthInWordsDay => "MMMM d, yyyy",
            DateForm.Dots => "dd.MM.yyyy",
            DateForm.Slashes => "dd'/'MM'/'yyyy",
            DateForm.Dashes => "dd-MM-yyyy",
            DateForm.YearFirst => "yyyy-MM-dd",
            _ => "d MMMM yyyy",
        },
        CultureInfo.InvariantCulture);
}
