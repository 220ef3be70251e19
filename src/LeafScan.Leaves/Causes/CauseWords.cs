using System.Globalization;

namespace LeafScan.Leaves.Causes;

/// <summary>Scores and figures in words, shared by all causes.</summary>
internal static class CauseWords
{
    /// <summary>0 at nothing, 0.5 at the half-way value, towards 1 beyond it.</summary>
    public static double Soft(double value, double halfWay) => value <= 0 ? 0 : value / (value + halfWay);

    /// <summary>The same with a foot: little counts for less than its share, as a small notch is no bite.</summary>
    public static double Foot(double value, double halfWay) => value <= 0 ? 0 : value * value / ((value * value) + (halfWay * halfWay));

    /// <summary>Three digits are plenty for an order.</summary>
    public static double Round(double score) => Math.Round(Math.Clamp(score, 0, 1), 3);

    /// <summary>A share as percent.</summary>
    public static string Percent(double share) => (share * 100).ToString(share < 0.1 ? "0.0" : "0", CultureInfo.InvariantCulture) + " %";

    /// <summary>A number with one digit behind the point.</summary>
    public static string Number(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>A number of things.</summary>
    public static string Count(int n, string one, string many) => n == 1 ? $"1 {one}" : $"{n.ToString(CultureInfo.InvariantCulture)} {many}";
}
