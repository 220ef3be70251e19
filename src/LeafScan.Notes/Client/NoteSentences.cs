using LeafScan.Leaves.Reading;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Notes.Client;

/// <summary>The sentences of a note, for people who do not measure leaves.</summary>
internal static class NoteSentences
{
    // A share that rounds to nothing is not worth a word.
    private const double WorthAWord = 0.0005;

    // The same of specks per cm.
    private const double WorthACount = 0.05;

    public const string NothingMeasured = "This plant has not been measured yet.";

    /// <summary>Leaves, affected leaves and kinds of damage of the last walk.</summary>
    public static IEnumerable<string> Seen(SeriesPoint point, IReadOnlyList<LeafOnRecord> leaves, NoteForms forms)
    {
        LeafFigures figures = point.Leaves;
        NoteThing thing = NoteThing.Of(leaves.Count > 0 ? leaves[0].Kind : null);
        string measured = $"{thing.Count(figures.LeafCount)} on {NoteForms.Count(figures.PhotoCount, "photo", "photos")} of {forms.Day(point.WalkedOn)} "
            + (figures.LeafCount == 1 ? "was measured" : "were measured");
        string affected = figures.LeafCount < 2 ? "." : figures.AffectedCount switch
        {
            0 => "; none of them has 5\u00A0% damage or more.",
            _ => $"; {(figures.AffectedCount == figures.LeafCount ? "all" : figures.AffectedCount.ToString(System.Globalization.CultureInfo.InvariantCulture))} of them {(figures.AffectedCount == 1 ? "has" : "have")} 5\u00A0% damage or more."
        };
        yield return measured + affected + (figures.LeafCountLeftOut > 0 ? $" {NoteForms.Count(figures.LeafCountLeftOut, $"more {thing.One}", $"more {thing.Many}")} could not be judged and {(figures.LeafCountLeftOut == 1 ? "is" : "are")} left out." : "");
        if (figures.Shares is { } shares)
        {
            yield return Kinds(shares, thing);
        }

        if (figures.Crown is { } crown)
        {
            yield return Crown(crown);
        }

        if (figures.Needles is { SpecksPerCm: >= WorthACount } needles)
        {
            yield return $"There are at least {forms.Along(needles.SpecksPerCm)}" + (needles.TwigCount < figures.LeafCount ? $", counted on {thing.Count(needles.TwigCount)}." : ".");
        }

        double[] sizes = [.. leaves.Select(leaf => leaf.AreaMm2).OfType<double>()];
        double[] densities = [.. leaves.Select(leaf => leaf.SpeckDensityPerCm2).OfType<double>()];
        if (sizes.Length > 0 && sizes.Length == leaves.Count)
        {
            yield return $"A {thing.One} is {forms.Area(sizes.Average())} on average" + (densities.Length == leaves.Count ? $" and has {forms.Density(densities.Average())} pale specks." : ".");
        }
    }

    /// <summary>A caution where plants were measured in different ways; nothing else.</summary>
    /// <param name="kinds">Kind of each plant's readings.</param>
    public static IEnumerable<string> KindsDiffer(IEnumerable<string> kinds)
    {
        (string Kind, int Plants)[] each = [.. kinds.GroupBy(kind => kind).Select(kind => (kind.Key, kind.Count())).OrderByDescending(kind => kind.Item2).ThenBy(kind => kind.Key, StringComparer.Ordinal)];
        return each.Length < 2 ? [] : [$"By {string.Join(" and ", each.Select(kind => $"{NoteThing.Of(kind.Kind).Photos} for {NoteForms.Count(kind.Plants, "plant", "plants")}"))}: figures of different kinds do not compare with each other."];
    }

    /// <summary>What the leaves' likely causes are, counted.</summary>
    public static string? Causes(IReadOnlyList<string> likeliest, NoteThing thing)
    {
        if (likeliest.Count == 0)
        {
            return null;
        }

        IGrouping<string, string>[] counted = [.. likeliest.GroupBy(cause => cause).OrderByDescending(group => group.Count()).ThenBy(group => group.Key, StringComparer.Ordinal)];
        string first = $"Likeliest cause by the look of the marks: {CauseWords(counted[0].Key)} on {thing.Count(counted[0].Count())}";
        string others = string.Join(", ", counted.Skip(1).Take(2).Select(group => $"{CauseWords(group.Key)} on {thing.Count(group.Count())}"));
        return first + (others.Length > 0 ? $", {others}." : ".");
    }

    private static string Kinds(LeafShares shares, NoteThing thing)
    {
        List<string> parts = [];
        foreach ((double share, string word) in new[] { (shares.Stippled, "stippled with pale specks"), (shares.Yellowed, "yellowed"), (shares.Browned, "browned") })
        {
            if (share >= WorthAWord)
            {
                parts.Add($"{NoteForms.Percent(share)} is {word}");
            }
        }

        return parts.Count == 0 ? "No pale specks, yellow or brown were found." : $"Of the {thing.Area} {string.Join(", ", parts)}.";
    }

    // Left and right are the photo's: a client stands before the plant and not behind the camera.
    private static string Crown(CrownFigures crown)
    {
        string sides = crown.WorstSides.Distinct().ToArray() switch
        {
            ["none"] => "no side stands out",
            [var side] => $"the {side} side of the {(crown.ViewCount == 1 ? "photo" : "photos")} is hit hardest",
            _ => "the photos differ in which side is hit hardest",
        };
        return $"{NoteForms.Percent(crown.Thinning)} of the crown is gap, very likely between {NoteForms.Range(crown.ThinningInterval)}; {sides}.";
    }

    /// <summary>What was eaten away, which is no part of the damage; null when it is nothing worth a word.</summary>
    public static string? Chewed(NoteFigure figure) =>
        figure.Chewed >= WorthAWord ? $"Besides, {NoteForms.Percent(figure.Chewed)} of the {NoteThing.Of(figure.Kind).One} was eaten away: that is not the work of mites." : null;

    /// <summary>What may be said of two figures side by side.</summary>
    public static string Change(NoteFigure before, NoteFigure now) =>
        now.Interval.Low > before.Interval.High ? "That is surely more than last time."
        : now.Interval.High < before.Interval.Low ? "That is surely less than last time. Damage does not heal: damaged leaves dropped, or new ones came."
        : "The two ranges overlap, so the difference may be chance.";

    /// <summary>The verdict in a sentence.</summary>
    public static string Verdict(Verdict verdict) => (verdict.Word, verdict.CareSince) switch
    {
        (VerdictWord.Working, _) => "The care is working.",
        (VerdictWord.NotWorking, _) => "The care is not working so far.",
        (VerdictWord.NewDamage, _) => "New damage has come.",
        (VerdictWord.NoNewDamage, _) => "No new damage has come.",
        (VerdictWord.TooEarly, null) => "It is too early to say whether damage still comes.",
        (VerdictWord.TooEarly, _) => "It is too early to say whether the care works.",
        (_, null) => "It cannot be told yet whether damage still comes.",
        _ => "It cannot be told yet whether the care works.",
    };

    /// <summary>The verdict in a word or two.</summary>
    public static string VerdictWords(VerdictWord word) => VerdictNames.OnScreen(word);

    /// <summary>A care entry.</summary>
    public static string Done(CareEntry entry, NoteForms forms)
    {
        string more = string.Join(", ", new[] { entry.Note, entry.Details.Active, entry.Details.LabelNumber is { } label ? $"label {label}" : null }.Where(word => !string.IsNullOrWhiteSpace(word)));
        return $"{forms.Day(entry.DoneOn)}: {CareWords(entry.What)}{(more.Length > 0 ? $". {more}" : "")}{(more.EndsWith('.') ? "" : ".")}";
    }

    /// <summary>A tap.</summary>
    public static string Tap(TapOnRecord tap, NoteForms forms)
    {
        bool isMany = tap.BranchCount > 1;
        string struck = tap.Tap.Strikes is { } strikes ? $", {NoteForms.Count(strikes, "strike", "strikes")}{(isMany ? " each" : "")}" : "";
        string hunters = tap.Tap.Predators is { } predators ? $" and {NoteForms.Count(predators, "predator", "predators")}" : "";
        string branches = isMany ? $"{NoteForms.Count(tap.BranchCount, "branch", "branches")}" : "A branch";
        return $"{branches} tapped over white paper on {forms.Day(tap.Tap.Day)}{struck}: {NoteForms.Count(tap.LiveMites, "mite", "mites")}{hunters} crawled on {(isMany ? "the paper" : "it")}.";
    }

    /// <summary>One word for the foot of the chart.</summary>
    public static string Mark(CareKind kind) => kind switch
    {
        CareKind.Rinse => "rinsed",
        CareKind.Soap => "soap",
        CareKind.Oil => "oil",
        CareKind.Predators => "predators",
        CareKind.Miticide => "miticide",
        CareKind.Pruning => "pruned",
        _ => "left alone",
    };

    private static string CareWords(CareKind kind) => kind switch
    {
        CareKind.Rinse => "rinsed with water",
        CareKind.Soap => "insecticidal soap",
        CareKind.Oil => "horticultural oil",
        CareKind.Predators => "predators released",
        CareKind.Miticide => "miticide",
        CareKind.Pruning => "pruned",
        _ => "left alone on purpose",
    };

    private static string CauseWords(string cause) => cause switch
    {
        "miteStippling" => "spider mites",
        "laceBugStipple" => "lace bugs",
        "chewing" => "something that chews",
        "leafSpot" => "leaf spots",
        "interveinalYellowing" => "yellowing between the veins",
        "evenYellowing" => "even yellowing",
        "sunGlareOnly" => "glare of the sun only",
        "tipBrowning" => "brown tips, as after winter or salt",
        "bandedNeedles" => "banded needles",
        "dyingBack" => "dying back",
        "fallColour" => "fall colour",
        "newGrowth" => "new growth",
        "sound" => "none",
        _ => cause,
    };
}
