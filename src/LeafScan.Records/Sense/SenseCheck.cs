using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Sense;

/// <summary>
/// Looks at every value of a record that came from outside: checksums tell that a file is as it was written, not that what was written
/// makes sense. What this lets in, every question can be answered from.
/// </summary>
internal static class SenseCheck
{
    /// <summary>Faults that are told; the first ones say enough.</summary>
    public const int Told = 3;

    private const string TimeText = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";

    // A clock may be wrong by a time zone or set late; a year ahead is a slip or a lie.
    private static readonly TimeSpan Ahead = TimeSpan.FromDays(366);

    /// <summary>The first few faults in words, such as "leaf 12 has no outline"; empty when all makes sense.</summary>
    /// <param name="transaction">The record.</param>
    /// <param name="now">What the clock says.</param>
    public static IReadOnlyList<string> Faults(SqliteTransaction transaction, DateTimeOffset now)
    {
        string last = (now + Ahead).UtcDateTime.ToString(TimeText, CultureInfo.InvariantCulture);
        return [.. Rows(transaction, last).Concat(TextSense.Faults(transaction)).Concat(ShapeSense.Faults(transaction)).Take(Told)];
    }

    private static IEnumerable<string> Rows(SqliteTransaction transaction, string last)
    {
        var limits = new DynamicParameters(new Dictionary<string, object> { ["lastDay"] = last[..10], ["lastTime"] = last });
        foreach (SenseRule rule in SenseRules.All)
        {
            string name = rule.Table switch { "weather" => "day", "foliage" => "leaf_id", _ => "id" };
            if (transaction.Connection!.QueryFirstOrDefault<string>($"SELECT CAST({name} AS TEXT) FROM {rule.Table} WHERE {rule.Broken} LIMIT 1", limits, transaction) is { } row)
            {
                yield return Fault(rule.Table, row, rule.Says);
            }
        }
    }

    /// <summary>A fault in words.</summary>
    public static string Fault(string table, string row, string says) => $"{table.Replace('_', ' ')} {row} {says}";
}
