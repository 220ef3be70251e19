using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    private const string ThresholdTable = "own_threshold";

    /// <summary>The thresholds that the person set. Takes in those of a file <see cref="ThresholdFile.FileName"/> of an older version first.</summary>
    /// <exception cref="RecordException">Such a file cannot be read.</exception>
    public IReadOnlyList<OwnThreshold> OwnThresholds()
    {
        TakeInThresholdFile();
        return Read(connection => connection.Query<ThresholdRow>($"{ThresholdRow.Select} WHERE value IS NOT NULL ORDER BY id").Select(row => row.ToThreshold()).ToList());
    }

    /// <summary>Sets a threshold; one of the same measure, plants and client is replaced and kept among the edits.</summary>
    /// <param name="threshold">The threshold.</param>
    /// <param name="reason">Why, for the edits.</param>
    public void SetThreshold(OwnThreshold threshold, string reason)
    {
        TakeInThresholdFile();
        Write(transaction => PutThreshold(transaction, threshold, threshold.Value, reason));
    }

    /// <summary>Takes a threshold away, so that the published one, if any, holds again; the old one is kept among the edits.</summary>
    /// <param name="threshold">The threshold as it was read.</param>
    /// <param name="reason">Why, for the edits.</param>
    public void DropThreshold(OwnThreshold threshold, string reason) => Write(transaction => PutThreshold(transaction, threshold, null, reason));

    private bool PutThreshold(SqliteTransaction transaction, OwnThreshold threshold, double? value, string? reason)
    {
        SqliteConnection connection = transaction.Connection!;
        var wanted = new { threshold.Measure, threshold.Plants, threshold.Client, threshold.Region, threshold.Source, value, now = Now() };
        ThresholdRow? old = connection.QuerySingleOrDefault<ThresholdRow>(
            $"{ThresholdRow.Select} WHERE measure = @Measure AND coalesce(plants, '') = coalesce(@Plants, '') COLLATE NOCASE AND coalesce(client, '') = coalesce(@Client, '') COLLATE NOCASE",
            wanted, transaction);
        long id = old?.Id ?? connection.QuerySingle<long>(
            "INSERT INTO own_threshold (measure, plants, client, value, region, source, set_utc) VALUES (@Measure, @Plants, @Client, NULL, '', '', @now) RETURNING id", wanted, transaction);
        connection.Execute("UPDATE own_threshold SET value = @value, region = @Region, source = @Source, set_utc = @now WHERE id = @id", new { wanted.value, wanted.Region, wanted.Source, wanted.now, id }, transaction);
        if (reason is not null)
        {
            var note = new ChangeNote(transaction, reason, Now());
            note.Keep(ThresholdTable, id, "value", NumberText(old?.Value), NumberText(value));
            note.Keep(ThresholdTable, id, "region", old?.Region ?? "", threshold.Region);
            note.Keep(ThresholdTable, id, "source", old?.Source ?? "", threshold.Source);
        }

        return true;
    }

    // The file goes only after its numbers are on record: cut off in between, they are taken in once more, which changes nothing.
    private void TakeInThresholdFile()
    {
        if (ThresholdFile.Read(Folder) is not { } found)
        {
            return;
        }

        Write(transaction =>
        {
            bool isFirst = transaction.Connection!.ExecuteScalar<long>("SELECT count(*) FROM own_threshold", transaction: transaction) == 0;
            foreach (OwnThreshold threshold in isFirst ? found : [])
            {
                PutThreshold(transaction, threshold, threshold.Value, reason: null);
            }

            return true;
        });
        ThresholdFile.PutAside(Folder);
    }

    private static string? NumberText(double? value) => value?.ToString(System.Globalization.CultureInfo.InvariantCulture);

    private sealed class ThresholdRow
    {
        public const string Select = "SELECT id AS Id, measure AS Measure, plants AS Plants, client AS Client, value AS Value, region AS Region, source AS Source FROM own_threshold";

        public long Id { get; init; }

        public string Measure { get; init; } = "";

        public string? Plants { get; init; }

        public string? Client { get; init; }

        public double? Value { get; init; }

        public string Region { get; init; } = "";

        public string Source { get; init; } = "";

        public OwnThreshold ToThreshold() => new(Measure, Value!.Value, Plants, Client, Region, Source);
    }
}
