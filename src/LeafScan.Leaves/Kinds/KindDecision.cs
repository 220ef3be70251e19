using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Kinds;

/// <summary>
/// What follows from a photo's kind. Refusing a leaf by mistake is far worse than measuring something else, so only kinds
/// that would give a meaningless number are refused outright, and only when the model is sure.
/// </summary>
internal sealed record KindDecision
{
    /// <summary>Nothing stands against measuring leaves.</summary>
    public static readonly KindDecision GoOn = new();

    /// <summary>What the photo is measured as: leaf, twig or plant.</summary>
    public PhotoKind Kind { get; private init; } = PhotoKind.Leaf;

    /// <summary>Why the photo is not measured, and what to do; null when it is measured.</summary>
    public (string Reason, string Advice)? Refusal { get; private init; }

    /// <summary>What the photo looks like if no leaf is found in it either; null when that is not known.</summary>
    public string? ElseLooksLike { get; private init; }

    /// <summary>Flags of the photo that come from its kind.</summary>
    public IReadOnlyList<string> Flags { get; private init; } = [];

    /// <summary>Decides for one photo.</summary>
    /// <param name="bgr">Upright photo, 8-bit B, G, R.</param>
    /// <param name="options">A kind that was said there is believed.</param>
    /// <param name="model">The model; null when its file is missing.</param>
    public static KindDecision For(Mat bgr, MeasureOptions options, KindModel? model)
    {
        if (options.Kind is { } said)
        {
            return Said(said);
        }

        return model is null ? GoOn : From(model.Judge(bgr), options.KindSureFrom);
    }

    /// <summary>Decides from a judgement.</summary>
    /// <param name="judged">What the model thinks.</param>
    /// <param name="sureFrom">Chance from which it is sure, 0..1.</param>
    public static KindDecision From(KindJudgement judged, double sureFrom)
    {
        if (judged.Kind == PhotoKind.Leaf)
        {
            return GoOn;
        }

        bool sure = judged.Chance >= sureFrom;
        return judged.Kind switch
        {
            PhotoKind.Twig or PhotoKind.Plant when sure => new KindDecision { Kind = judged.Kind },
            PhotoKind.Tap when sure => new KindDecision { Refusal = ($"This looks like {Looks(PhotoKind.Tap)}, which has no leaf to measure.", Advice) },
            PhotoKind.Tag or PhotoKind.Unusable when sure => new KindDecision { Flags = [Flag.KindUnsure.Name], ElseLooksLike = Looks(judged.Kind) },
            _ => new KindDecision { Flags = [Flag.KindUnsure.Name] },
        };
    }

    private const string Advice = "Count what walks with: leafscan tap A.jpg B.jpg; if it is a leaf after all, measure the photo again with --kind leaf.";

    private static KindDecision Said(string kind) => PhotoKinds.Named(kind) switch
    {
        PhotoKind.Twig => new KindDecision { Kind = PhotoKind.Twig },
        PhotoKind.Plant => new KindDecision { Kind = PhotoKind.Plant },
        _ => GoOn,
    };

    private static string Looks(PhotoKind kind) => kind switch
    {
        PhotoKind.Tap => "the white sheet of a tap test",
        PhotoKind.Tag => "a plant tag",
        _ => "a photo taken by mistake",
    };
}
