using System.Globalization;
using System.Text.RegularExpressions;
using LeafScan.Trends.Statistics;

namespace LeafScan.Notes.Client;

/// <summary>How days, shares and sizes are written in a note.</summary>
/// <param name="Dates">Form of a day.</param>
/// <param name="UsUnits">Inches in place of centimetres.</param>
public sealed partial record NoteForms(DateForm Dates, bool UsUnits)
{
    private const char Tie = '\u00A0';

    private const double Cm2PerSquareInch = 6.4516, CmPerInch = 2.54;

    /// <summary>A day.</summary>
    public string Day(DateOnly day) => Dates.Write(day);

    /// <summary>A sentence whose days are written 2026-07-02, with them in the form of the note.</summary>
    public string Sentence(string words) => IsoDay().Replace(
        words, found => DateOnly.TryParseExact(found.Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? Day(day) : found.Value);

    /// <summary>A share 0..1 as "8.2 %"; from 10 % on without a decimal, which no measure of leaves deserves.</summary>
    public static string Percent(double share) => Number(share) + Tie + "%";

    /// <summary>"8.2 and 11 %", for "between ...".</summary>
    public static string Range(Interval interval) => $"{Number(interval.Low)} and {Percent(interval.High)}";

    /// <summary>A leaf's area.</summary>
    /// <param name="mm2">In mm².</param>
    public string Area(double mm2) => UsUnits
        ? string.Create(CultureInfo.InvariantCulture, $"{mm2 / 100 / Cm2PerSquareInch:0.0}{Tie}sq{Tie}in")
        : string.Create(CultureInfo.InvariantCulture, $"{mm2 / 100:0.0}{Tie}cm²");

    /// <summary>Specks on an area.</summary>
    /// <param name="perCm2">Per cm².</param>
    public string Density(double perCm2) => UsUnits
        ? string.Create(CultureInfo.InvariantCulture, $"{perCm2 * Cm2PerSquareInch:0} per square inch")
        : string.Create(CultureInfo.InvariantCulture, $"{perCm2:0} per cm²");

    /// <summary>Specks along needles.</summary>
    /// <param name="perCm">Per cm.</param>
    public string Along(double perCm) => UsUnits
        ? string.Create(CultureInfo.InvariantCulture, $"{perCm * CmPerInch:0.0} pale specks per inch of needle")
        : string.Create(CultureInfo.InvariantCulture, $"{perCm:0.0} pale specks per cm of needle");

    /// <summary>"1 leaf", "20 leaves".</summary>
    public static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count}{Tie}{(count == 1 ? one : many)}");

    private static string Number(double share)
    {
        double percent = share * 100;
        return (Math.Round(percent, 1) >= 10 ? Math.Round(percent) : Math.Round(percent, 1) + 0.0).ToString("0.#", CultureInfo.InvariantCulture);
    }

    [GeneratedRegex(@"\b\d{4}-\d{2}-\d{2}\b", RegexOptions.CultureInvariant)]
    private static partial Regex IsoDay();
}
