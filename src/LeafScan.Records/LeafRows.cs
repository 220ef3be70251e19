using System.Text;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace LeafScan.Records;

/// <summary>
/// Reads leaves column by column, not through the object mapper: a block's season has tens of thousands of them, and mapping, parsing
/// the same days and lists of flags over and over and sorting in the database took most of the time.
/// </summary>
internal static class LeafRows
{
    // Which plants are asked is settled first and once: a plant's own kind, asked photo by photo, took most of the time of the whole question.
    private const string Select = """
        SELECT leaf.id, photo.walk_id, photo.plant_id, walk.walked_on, photo.id, photo.file_name, leaf.ordinal, leaf.area_px, leaf.area_mm2,
            leaf.share_sound, leaf.share_stippled, leaf.share_yellowed, leaf.share_browned, leaf.share_chewed, leaf.share_unassessed,
            leaf.damage, leaf.damage_low, leaf.damage_high, leaf.speck_count, leaf.speck_density_per_cm2, leaf.speck_diameter_median_px,
            leaf.flags, reading.flags, photo.leaf_age, photo.leaf_tag, leaf_note.age, leaf_note.tag, reading.kind
        """;

    private static readonly string SelectDamage = $"""
        SELECT photo.plant_id, photo.walk_id, photo.id, walk.walked_on, leaf.ordinal, leaf.damage, leaf.damage_low, leaf.damage_high, leaf.share_unassessed,
            instr(reading.flags, '"{Flag.DamagedFile.Name}"') + instr(leaf.flags, '"{Flag.DamagedFile.Name}"'), coalesce(leaf_note.age, photo.leaf_age), reading.kind
        """;

    private const string From = """
        FROM asked CROSS JOIN photo ON photo.plant_id = asked.plant_id JOIN walk ON walk.id = photo.walk_id
        JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1
        JOIN leaf ON leaf.reading_id = reading.id
        LEFT JOIN leaf_note ON leaf_note.photo_id = photo.id AND leaf_note.ordinal = leaf.ordinal
        WHERE photo.deleted_utc IS NULL AND reading.kind = coalesce($kind, asked.kind)
        """;

    /// <summary>Leaves by plant, day, photo and place in the photo.</summary>
    /// <param name="connection">The record.</param>
    /// <param name="kind">leaf, twig or plant; null for each plant's own.</param>
    /// <param name="plants">Which plants, a condition on plant_id in the words of SQL; only our own.</param>
    /// <param name="leaves">Which of their leaves, a condition on photo, walk and asked (plant_id, kind, last_on); null for all.</param>
    /// <param name="parameters">Parameters of both.</param>
    public static IReadOnlyList<LeafOnRecord> Read(SqliteConnection connection, string? kind, string plants, string? leaves, params (string Name, object? Value)[] parameters)
    {
        using SqliteCommand command = Ask(connection, Select, kind, plants, leaves, parameters);
        List<LeafOnRecord> rows = [];
        List<int> namedByPhoto = [];
        HashSet<long> several = [];
        var words = new Words();
        using (SqliteDataReader reader = command.ExecuteReader())
        {
            // The columns are taken from SQLite itself: the reader's own methods check each value several times, which over a block's
            // season takes longer than the whole question.
            sqlite3_stmt row = reader.Handle!;
            while (reader.Read())
            {
                LeafOnRecord leaf = LeafOf(row, words, out bool isNamedByPhoto);
                if (isNamedByPhoto)
                {
                    namedByPhoto.Add(rows.Count);
                }

                if (leaf.Ordinal > 0)
                {
                    several.Add(leaf.PhotoId);
                }

                rows.Add(leaf);
            }
        }

        // A label given to a photo names its leaf only where there is one.
        foreach (int i in several.Count == 0 ? [] : namedByPhoto)
        {
            rows[i] = several.Contains(rows[i].PhotoId) ? rows[i] with { Tag = null } : rows[i];
        }

        FoliageRows.LayOver(connection, rows);
        Sort(rows, Order);
        return rows;
    }

    /// <summary>The damage alone, in the same order.</summary>
    /// <param name="connection">The record.</param>
    /// <param name="kind">As above.</param>
    /// <param name="plants">As above.</param>
    /// <param name="leaves">As above.</param>
    /// <param name="parameters">As above.</param>
    public static IReadOnlyList<LeafDamage> ReadDamage(SqliteConnection connection, string? kind, string plants, string? leaves, params (string Name, object? Value)[] parameters)
    {
        using SqliteCommand command = Ask(connection, SelectDamage, kind, plants, leaves, parameters);
        List<LeafDamage> rows = [];
        var words = new Words();
        using (SqliteDataReader reader = command.ExecuteReader())
        {
            sqlite3_stmt row = reader.Handle!;
            while (reader.Read())
            {
                rows.Add(new LeafDamage(
                    raw.sqlite3_column_int64(row, 0), words.DayOf(row), raw.sqlite3_column_int64(row, 2), raw.sqlite3_column_int(row, 4),
                    raw.sqlite3_column_double(row, 5), raw.sqlite3_column_double(row, 6), raw.sqlite3_column_double(row, 7), raw.sqlite3_column_double(row, 8),
                    raw.sqlite3_column_int(row, 9) > 0, StoreWords.GrowthOf(words.Known(row, 10)), words.Known(row, 11)!));
            }
        }

        Sort(rows, DamageOrder);
        return rows;
    }

    private static SqliteCommand Ask(SqliteConnection connection, string select, string? kind, string plants, string? leaves, (string Name, object? Value)[] parameters)
    {
        SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The conditions are some of a few of our own.
        command.CommandText = $"WITH asked AS MATERIALIZED ({PlantDays.KindAndLastDay(plants)}) {select} {From}{(leaves is null ? string.Empty : $" AND {leaves}")}";
#pragma warning restore CA2100
        foreach ((string name, object? value) in parameters.Append(("$kind", kind)))
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        return command;
    }

    private static LeafOnRecord LeafOf(sqlite3_stmt row, Words words, out bool isNamedByPhoto)
    {
        string? ownTag = words.Known(row, 26);
        int ordinal = raw.sqlite3_column_int(row, 6);
        string? photoTag = ownTag is null && ordinal == 0 ? words.Known(row, 24) : null;
        isNamedByPhoto = photoTag is not null;
        return new LeafOnRecord
        {
            LeafId = raw.sqlite3_column_int64(row, 0),
            WalkId = raw.sqlite3_column_int64(row, 1),
            PlantId = raw.sqlite3_column_int64(row, 2),
            WalkedOn = words.DayOf(row),
            PhotoId = raw.sqlite3_column_int64(row, 4),
            FileName = raw.sqlite3_column_text(row, 5).utf8_to_string(),
            Ordinal = ordinal,
            AreaPx = raw.sqlite3_column_double(row, 7),
            AreaMm2 = NumberOrNull(row, 8),
            Shares = new LeafShares(
                raw.sqlite3_column_double(row, 9), raw.sqlite3_column_double(row, 10), raw.sqlite3_column_double(row, 11), raw.sqlite3_column_double(row, 12),
                raw.sqlite3_column_double(row, 13), raw.sqlite3_column_double(row, 14)),
            Damage = raw.sqlite3_column_double(row, 15),
            DamageLow = raw.sqlite3_column_double(row, 16),
            DamageHigh = raw.sqlite3_column_double(row, 17),
            SpeckCount = raw.sqlite3_column_int(row, 18),
            SpeckDensityPerCm2 = NumberOrNull(row, 19),
            SpeckDiameterMedianPx = raw.sqlite3_column_double(row, 20),
            Flags = words.FlagsOf(row),
            Age = StoreWords.GrowthOf(words.Known(row, 25) ?? words.Known(row, 23)),
            Tag = ownTag ?? photoTag,
            Kind = words.Known(row, 27)!,
        };
    }

    private static double? NumberOrNull(sqlite3_stmt row, int column)
        => raw.sqlite3_column_type(row, column) == raw.SQLITE_NULL ? null : raw.sqlite3_column_double(row, column);

    // Mostly they come in order: then one look is enough.
    private static void Sort<T>(List<T> rows, Comparer<T> order)
    {
        for (int i = 1; i < rows.Count; i++)
        {
            if (order.Compare(rows[i - 1], rows[i]) > 0)
            {
                rows.Sort(order);
                return;
            }
        }
    }

    private static readonly Comparer<LeafOnRecord> Order = Comparer<LeafOnRecord>.Create(
        (a, b) => Compare(a.PlantId, a.WalkedOn, a.PhotoId, a.Ordinal, b.PlantId, b.WalkedOn, b.PhotoId, b.Ordinal));

    private static readonly Comparer<LeafDamage> DamageOrder = Comparer<LeafDamage>.Create(
        (a, b) => Compare(a.PlantId, a.WalkedOn, a.PhotoId, a.Ordinal, b.PlantId, b.WalkedOn, b.PhotoId, b.Ordinal));

    private static int Compare(long plant, DateOnly day, long photo, int ordinal, long otherPlant, DateOnly otherDay, long otherPhoto, int otherOrdinal)
    {
        int by = plant.CompareTo(otherPlant);
        by = by != 0 ? by : day.CompareTo(otherDay);
        by = by != 0 ? by : photo.CompareTo(otherPhoto);
        return by != 0 ? by : ordinal.CompareTo(otherOrdinal);
    }

    // Thousands of leaves share a handful of days, labels and lists of flags.
    private sealed class Words
    {
        private const int WalkColumn = 1;

        private const int LongestInPlace = 256;

        private readonly Dictionary<long, DateOnly> _days = [];
        private readonly Dictionary<string, string>.AlternateLookup<ReadOnlySpan<char>> _known = new Dictionary<string, string>(StringComparer.Ordinal).GetAlternateLookup<ReadOnlySpan<char>>();
        private readonly Dictionary<(string Photo, string Leaf), IReadOnlyList<string>> _flags = [];

        public DateOnly DayOf(sqlite3_stmt row)
        {
            long walkId = raw.sqlite3_column_int64(row, WalkColumn);
            if (!_days.TryGetValue(walkId, out DateOnly day))
            {
                _days[walkId] = day = UtcText.Date(raw.sqlite3_column_text(row, 3).utf8_to_string());
            }

            return day;
        }

        /// <summary>A word that was seen before without making it anew; null for an empty column.</summary>
        public string? Known(sqlite3_stmt row, int column)
        {
            if (raw.sqlite3_column_type(row, column) == raw.SQLITE_NULL)
            {
                return null;
            }

            // SQLite's text is UTF-8; taken as bytes it needs no string.
            ReadOnlySpan<byte> bytes = raw.sqlite3_column_blob(row, column);
            if (bytes.Length > LongestInPlace)
            {
                return Encoding.UTF8.GetString(bytes);
            }

            Span<char> letters = stackalloc char[LongestInPlace];
            ReadOnlySpan<char> word = letters[..Encoding.UTF8.GetChars(bytes, letters)];
            if (!_known.TryGetValue(word, out string? known))
            {
                known = word.ToString();
                _known[word] = known;
            }

            return known;
        }

        public IReadOnlyList<string> FlagsOf(sqlite3_stmt row)
        {
            (string Photo, string Leaf) both = (Known(row, 22)!, Known(row, 21)!);
            if (!_flags.TryGetValue(both, out IReadOnlyList<string>? names))
            {
                _flags[both] = names = [.. ShapeText.ReadNames(both.Photo).Union(ShapeText.ReadNames(both.Leaf), StringComparer.Ordinal)];
            }

            return names;
        }
    }
}
