using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

/// <summary>Keeps the edits of one change by hand under one number, so that they are undone together.</summary>
internal sealed class ChangeNote(SqliteTransaction transaction, string reason, string now)
{
    private long? _changeId;

    /// <summary>Keeps what one field was and is; nothing when it stayed as it was.</summary>
    /// <param name="table">Table.</param>
    /// <param name="row">Row.</param>
    /// <param name="field">Field.</param>
    /// <param name="oldValue">What it was.</param>
    /// <param name="newValue">What it is.</param>
    /// <param name="because">Why this one; null for the reason of the whole change.</param>
    public void Keep(string table, long row, string field, string? oldValue, string? newValue, string? because = null)
    {
        if (oldValue == newValue)
        {
            return;
        }

        SqliteConnection connection = transaction.Connection!;
        long id = connection.QuerySingle<long>(
            """
            INSERT INTO edit (table_name, row_id, field, old_value, new_value, reason, edited_utc, change_id)
            VALUES (@table, @row, @field, @oldValue, @newValue, @reason, @now, @change) RETURNING id
            """,
            new { table, row, field, oldValue, newValue, reason = because ?? reason, now, change = _changeId }, transaction);
        if (_changeId is null)
        {
            _changeId = id;
            connection.Execute("UPDATE edit SET change_id = id WHERE id = @id", new { id }, transaction);
        }
    }
}
