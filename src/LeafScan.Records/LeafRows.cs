using LeafScan.Leaves.Reading;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

/// <summary>
/// Reads leaves column by column, not through the object mapper: a block's season has tens of thousands of them, and mapping, parsing
/// the same days and lists of flags over and over and sorting in the database took most of the time.
/// </summary>
internal static class LeafRows
{
    private const string Select = $"""
        SELECT leaf.id, photo.plant_id, photo.walk_id, walk.walked_on, photo.id, photo.file_name, leaf.ordinal, leaf.area_px, leaf.area_mm2,
            leaf.share_sound, leaf.share_stippled, leaf.share_yellowed, leaf.share_browned, leaf.share_chewed, leaf.share_unassessed,
            leaf.damage, leaf.damage_low, leaf.damage_high, leaf.speck_count, leaf.speck_density_per_cm2, leaf.speck_diameter_median_px,
            leaf.flags, reading.flags, photo.leaf_age, photo.leaf_tag, leaf_note.age, leaf_note.tag, reading.kind
        FROM photo JOIN walk ON walk.id = photo.walk_id
        JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1
        JOIN leaf ON leaf.reading_id = reading.id
        LEFT JOIN leaf_note ON leaf_note.photo_id = photo.id AND leaf_note.ordinal = leaf.ordinal
        WHERE photo.deleted_utc IS NULL AND reading.kind = coalesce($kind, {PlantDays.KindOfPlant}) AND
        """;

    /// <summary>Leaves by plant, day, photo and place in the photo.</summary>
    /// <param name="connection">The record.</param>
    /// <param name="kind">leaf, twig or plant; null for each plant's own.</param>
    /// <param name="condition">Which, in the words of SQL; only our own.</param>
    /// <param name="parameters">Its parameters.</param>
    public static IReadOnlyList<LeafOnRecord> Read(SqliteConnection connection, string? kind, string condition, params (string Name, object? Value)[] parameters)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The condition is one of a few of our own.
        command.CommandText = $"{Select} {condition}";
#pragma warning restore CA2100
        foreach ((string name, object? value) in parameters.Append(("$kind", kind)))
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        List<(LeafOnRecord Leaf, string? PhotoTag)> rows = [];
        HashSet<long> several = [];
        var words = new Words();
        using (SqliteDataReader reader = command.ExecuteReader())
        {
            while (reader.Read())
            {
                (LeafOnRecord leaf, string? photoTag) = LeafOf(reader, words);
                rows.Add((leaf, photoTag));
                if (leaf.Ordinal > 0)
                {
                    several.Add(leaf.PhotoId);
                }
            }
        }

        // A label given to a photo names its leaf only where there is one.
        var leaves = new LeafOnRecord[rows.Count];
        for (int i = 0; i < leaves.Length; i++)
        {
            (LeafOnRecord leaf, string? photoTag) = rows[i];
            leaves[i] = photoTag is null || leaf.Tag is not null || several.Contains(leaf.PhotoId) ? leaf : leaf with { Tag = photoTag };
        }

        Array.Sort(leaves, Order);
        return leaves;
    }

    private static (LeafOnRecord Leaf, string? PhotoTag) LeafOf(SqliteDataReader row, Words words)
    {
        string? ownTag = row.IsDBNull(26) ? null : row.GetString(26);
        string? photoTag = row.IsDBNull(24) ? null : words.Known(row.GetString(24));
        bool isAlone = row.GetInt64(6) == 0;
        LeafOnRecord leaf = new()
        {
            LeafId = row.GetInt64(0),
            PlantId = row.GetInt64(1),
            WalkId = row.GetInt64(2),
            WalkedOn = words.DayOf(row.GetInt64(2), row),
            PhotoId = row.GetInt64(4),
            FileName = row.GetString(5),
            Ordinal = (int)row.GetInt64(6),
            AreaPx = row.GetDouble(7),
            AreaMm2 = row.IsDBNull(8) ? null : row.GetDouble(8),
            Shares = new LeafShares(row.GetDouble(9), row.GetDouble(10), row.GetDouble(11), row.GetDouble(12), row.GetDouble(13), row.GetDouble(14)),
            Damage = row.GetDouble(15),
            DamageLow = row.GetDouble(16),
            DamageHigh = row.GetDouble(17),
            SpeckCount = (int)row.GetInt64(18),
            SpeckDensityPerCm2 = row.IsDBNull(19) ? null : row.GetDouble(19),
            SpeckDiameterMedianPx = row.GetDouble(20),
            Flags = words.FlagsOf(row.GetString(22), row.GetString(21)),
            Age = StoreWords.GrowthOf(row.IsDBNull(25) ? (row.IsDBNull(23) ? null : row.GetString(23)) : row.GetString(25)),
            Tag = ownTag,
            Kind = words.Known(row.GetString(27)),
        };
        return (leaf, ownTag is null && isAlone ? photoTag : null);
    }

    private static readonly Comparer<LeafOnRecord> Order = Comparer<LeafOnRecord>.Create((a, b) =>
    {
        int by = a.PlantId.CompareTo(b.PlantId);
        by = by != 0 ? by : a.WalkedOn.CompareTo(b.WalkedOn);
        by = by != 0 ? by : a.PhotoId.CompareTo(b.PhotoId);
        return by != 0 ? by : a.Ordinal.CompareTo(b.Ordinal);
    });

    // Thousands of leaves share a handful of days, labels and lists of flags.
    private sealed class Words
    {
        private readonly Dictionary<long, DateOnly> _days = [];
        private readonly Dictionary<string, string> _known = new(StringComparer.Ordinal);
        private readonly Dictionary<(string Photo, string Leaf), IReadOnlyList<string>> _flags = [];

        public DateOnly DayOf(long walkId, SqliteDataReader row)
        {
            if (!_days.TryGetValue(walkId, out DateOnly day))
            {
                _days[walkId] = day = UtcText.Date(row.GetString(3));
            }

            return day;
        }

        public string Known(string word)
        {
            if (!_known.TryGetValue(word, out string? known))
            {
                _known[word] = known = word;
            }

            return known;
        }

        public IReadOnlyList<string> FlagsOf(string ofPhoto, string ofLeaf)
        {
            if (!_flags.TryGetValue((ofPhoto, ofLeaf), out IReadOnlyList<string>? names))
            {
                _flags[(ofPhoto, ofLeaf)] = names = [.. ShapeText.ReadNames(ofPhoto).Union(ShapeText.ReadNames(ofLeaf), StringComparer.Ordinal)];
            }

            return names;
        }
    }
}
