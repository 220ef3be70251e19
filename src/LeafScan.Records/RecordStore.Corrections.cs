using System.Globalization;
using Dapper;
using LeafScan.Leaves.Reading;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    private const int FewestCorners = 3;
    private const int MostCorners = 5000;

    /// <summary>Keeps what a person says of a leaf; can be undone. The photo is then to be measured again, see <see cref="PhotosToMeasureAgain"/>.</summary>
    /// <param name="photoId">Photo.</param>
    /// <param name="what">What is said.</param>
    /// <param name="leafOutline">The leaf's outline in the current reading.</param>
    /// <param name="outline">The outline that was drawn, 3 to 5000 corners; null for the other kinds.</param>
    /// <param name="who">Who says it; null for not told.</param>
    /// <param name="reason">Why, for the edits.</param>
    /// <returns>Its number.</returns>
    /// <exception cref="RecordException">There is no outline, or one too many, or it has too few or too many corners.</exception>
    public long AddCorrection(long photoId, CorrectionKind what, IReadOnlyList<PointPx> leafOutline, IReadOnlyList<PointPx>? outline, string? who, string reason)
    {
        if ((what == CorrectionKind.Outline) != (outline is not null) || outline?.Count is < FewestCorners or > MostCorners)
        {
            throw new RecordException(
                RecordTrouble.WrongValue, "The outline cannot be kept.", "Nothing was written.",
                string.Create(CultureInfo.InvariantCulture, $"Draw it around the leaf with {FewestCorners} to {MostCorners} corners."));
        }

        return Write(transaction =>
        {
            string word = WordOf(what);
            long id = transaction.Connection!.QuerySingle<long>(
                """
                INSERT INTO correction (photo_id, what, leaf_outline, outline, who, made_utc) VALUES (@photoId, @word, @leaf, @drawn, @who, @now) RETURNING id
                """,
                new
                {
                    photoId,
                    word,
                    leaf = ShapeText.Of(leafOutline),
                    drawn = outline is null ? null : ShapeText.Of(outline),
                    who = CleanOrNull(who, "a person's name"),
                    now = Now(),
                },
                transaction);
            new ChangeNote(transaction, reason, Now()).Keep("photo", photoId, string.Create(CultureInfo.InvariantCulture, $"correction {id}"), null, word);
            return id;
        });
    }

    /// <summary>What was said of the leaves of a photo, oldest first, with what was taken back.</summary>
    public IReadOnlyList<Correction> CorrectionsOf(long photoId) => Read(connection => connection.Query<CorrectionRow>(
        """
        SELECT id AS Id, what AS What, leaf_outline AS LeafOutline, outline AS Outline, who AS Who, made_utc AS MadeUtc, taken_back_utc AS TakenBackUtc
        FROM correction WHERE photo_id = @photoId ORDER BY id
        """,
        new { photoId }).Select(row => row.ToCorrection()).ToList());

    /// <summary>Photos of which something was said, or taken back, that no reading takes into account yet.</summary>
    public IReadOnlyList<long> PhotosToMeasureAgain()
        => Read(connection => connection.Query<long>("SELECT DISTINCT photo_id FROM correction WHERE is_settled = 0 ORDER BY photo_id").ToList());

    private static string WordOf(CorrectionKind what)
    {
        string name = what.ToString();
        return char.ToLowerInvariant(name[0]) + name[1..];
    }

    private static long? CorrectionOfField(string field)
        => field.Split(' ') is ["correction", string number] && long.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out long id) ? id : null;

    private sealed class CorrectionRow
    {
        public long Id { get; init; }

        public string What { get; init; } = "";

        public string LeafOutline { get; init; } = "";

        public string? Outline { get; init; }

        public string? Who { get; init; }

        public string MadeUtc { get; init; } = "";

        public string? TakenBackUtc { get; init; }

        public Correction ToCorrection() => new(
            Id, Enum.Parse<CorrectionKind>(What, ignoreCase: true), ShapeText.ReadOutline(LeafOutline), Outline is null ? null : ShapeText.ReadOutline(Outline), Who,
            UtcText.Time(MadeUtc), UtcText.TimeOrNull(TakenBackUtc));
    }
}
