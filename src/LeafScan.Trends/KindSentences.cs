using System.Text.RegularExpressions;

namespace LeafScan.Trends;

/// <summary>
/// Sentences of verdicts, comparisons and advice are written for leaves; readings of twigs and whole plants get the same sentences in their
/// own words, so that nobody is told to look at the same leaves of a spruce.
/// </summary>
public static partial class KindSentences
{
    // Whole phrases first: what is done with ten leaves is done with a plant from a marked place.
    private static readonly (string Leaves, string Twigs, string Plants)[] Phrases =
    [
        ("Photograph ten leaves, tag them, and tap.", "Photograph ten twigs, tag them, and tap.", "Photograph the whole plant from a marked place, and tap."),
        ("Photograph five leaves or more, and tag them.", "Photograph five twigs or more, and tag them.", "Photograph the whole plant from a marked place, all sides that can be seen."),
        ("Tag ten leaves, photograph the same ones next week, and tap.", "Tag ten twigs, photograph the same ones next week, and tap.", "Photograph the whole plant from the same place next week, and tap."),
        ("Tag ten leaves and photograph the same ones next week.", "Tag ten twigs and photograph the same ones next week.", "Photograph the whole plant from the same place next week."),
        ("tag ten leaves and photograph the same ones each week", "tag ten twigs and photograph the same ones each week", "photograph the whole plant from the same place each week"),
        ("go on with the same leaves and taps, more of both: twenty leaves, three taps", "go on with the same twigs and taps, more of both: twenty twigs, three taps", "go on from the same place with photos and taps, more of both: every side, three taps"),
        (", at the same leaves if they are tagged", ", at the same twigs if they are tagged", ", from the same place"),
        (": the same leaves, and a tap", ": the same twigs, and a tap", ": the whole plant from the same place, and a tap"),
        (": the same leaves, new growth, a tap", ": the same twigs, new growth, a tap", ": the whole plant from the same place, new growth, a tap"),
        ("of its leaves is discoloured", "of its foliage is discoloured", "of its foliage is discoloured"),
        ("mark on its leaves", "mark on its foliage", "mark on its foliage"),
        ("both sides of the leaves", "all sides of the shoots", "all sides of the shoots"),
        ("The leaves were so damaged", "The foliage was so damaged", "The foliage was so damaged"),
        ("The leaves gained damage", "The twigs gained damage", "The plant gained damage"),
        ("leaf drop", "needle drop", "needle drop"),
        ("damaged leaves drop", "damaged needles drop", "damaged needles drop"),
        ("Its last leaves are of", "Its last twigs are of", "Its last photo is of"),
        ("as well as leaves that came and went", "as well as needles that came and went", "as well as foliage that came and went"),
        ("New leaves are among", "New shoots are among", "New shoots are among"),
        ("from new leaves,", "from new shoots,", "from new shoots,"),
        ("the part of the leaf in the photo", "the part of the twig in the photo", "the side of the plant in the photo"),
        ("; leaves alone never say", "; photos alone never say", "; photos alone never say"),
        ("The leaves are not marked as the same ones", "The twigs are not marked as the same ones", "The views are not marked as the same ones"),
    ];

    /// <summary>Says a sentence of another kind of reading.</summary>
    /// <param name="kind"><c>leaf</c>, <c>twig</c> or <c>plant</c>; anything else counts as leaf.</param>
    /// <param name="sentence">The sentence, written for leaves.</param>
    public static string Of(string? kind, string sentence)
    {
        if (kind is not ("twig" or "plant"))
        {
            return sentence;
        }

        foreach ((string leaves, string twigs, string plants) in Phrases)
        {
            sentence = sentence.Replace(leaves, kind == "twig" ? twigs : plants, StringComparison.Ordinal);
        }

        string one = kind == "twig" ? "twig" : "view";
        return Noun().Replace(sentence, match => match.Value switch
        {
            "leaf" => one,
            "Leaf" => Capital(one),
            "Leaves" => Capital(one) + "s",
            _ => one + "s",
        });
    }

    private static string Capital(string word) => char.ToUpperInvariant(word[0]) + word[1..];

    // "None found leaves room for" is another word.
    [GeneratedRegex(@"\b([Ll]eaf|[Ll]eaves(?! room))\b")]
    private static partial Regex Noun();
}
