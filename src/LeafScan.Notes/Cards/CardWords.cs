using LeafScan.Notes.Client;
using LeafScan.Photos;

namespace LeafScan.Notes.Cards;

/// <summary>The sentences of a card.</summary>
public static class CardWords
{
    /// <summary>What a photo cannot say, on every card.</summary>
    public const string Limits = "A photo shows damage, not whether mites are there now. Damage does not heal.";

    // A share that rounds to nothing is not worth a word.
    private const double WorthAWord = 0.0005;

    /// <summary>Behind the number.</summary>
    public static string Shows(MeasureCard card) => $"of the {Thing(card)} shows damage";

    /// <summary>The interval in words.</summary>
    public static string Likely(MeasureCard card) => $"Very likely between {NoteForms.Range(card.Interval)}.";

    /// <summary>Number and interval in one sentence.</summary>
    public static string Sentence(MeasureCard card) => $"{NoteForms.Percent(card.Damage)} {Shows(card)}, very likely between {NoteForms.Range(card.Interval)}.";

    /// <summary>Kinds of damage, and what was eaten away.</summary>
    public static string Kinds(MeasureCard card)
    {
        List<string> parts =
        [
            .. new[] { (card.Shares.Stippled, "stippled with pale specks"), (card.Shares.Yellowed, "yellowed"), (card.Shares.Browned, "browned") }
                .Where(kind => kind.Item1 >= WorthAWord).Select(kind => $"{NoteForms.Percent(kind.Item1)} {kind.Item2}"),
        ];
        string damage = parts.Count == 0 ? "No pale specks, yellow or brown were found." : Capital(string.Join(", ", parts)) + ".";
        return card.Shares.Chewed >= WorthAWord ? $"{damage} Besides, {NoteForms.Percent(card.Shares.Chewed)} was eaten away." : damage;
    }

    /// <summary>What the number is of, and what the picture shows.</summary>
    public static string Basis(MeasureCard card)
    {
        string day = card.Day is { } known ? $" of {card.Forms.Day(known)}" : "";
        if (card.Kind != PhotoKinds.Leaf)
        {
            return $"Measured on {NoteForms.Count(card.PhotoCount, "photo", "photos")}{day}.";
        }

        if (card.IsOfPhoto)
        {
            return card.LeafCount == 1 ? $"Measured on one leaf{day}; other leaves may be better or worse." : $"Mean of {NoteForms.Count(card.LeafCount, "leaf", "leaves")} on one photo{day}.";
        }

        string mean = card.LeafCount == 1 ? $"Measured on one leaf{day}." : $"Mean of {NoteForms.Count(card.LeafCount, "leaf", "leaves")} on {NoteForms.Count(card.PhotoCount, "photo", "photos")}{day}.";
        return card.Picture is not null && card.Photo is { } photo && card.LeafCount > 1 ? $"{mean} The picture shows the one nearest to the mean: {NoteForms.Percent(photo.Damage)}." : mean;
    }

    /// <summary>Doubts about the photo in words; empty when there are none worth telling.</summary>
    public static string Doubts(MeasureCard card) => string.Join(" ", card.Flags
        .Where(name => name != Flag.NoScale.Name && Flag.All.ContainsKey(name)).Select(name => Flag.All[name].Meaning).Distinct(StringComparer.Ordinal));

    private static string Thing(MeasureCard card) => card.Kind == PhotoKinds.Leaf ? "leaf area" : "foliage";

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}

/// <summary>Kinds of photo as they stand on record.</summary>
internal static class PhotoKinds
{
    public const string Leaf = "leaf";
}
