namespace LeafScan.Notes.Client;

/// <summary>What stands on every note.</summary>
internal static class NoteFixed
{
    /// <summary>What the figures cannot say.</summary>
    /// <param name="thing">What was measured; null where it differs from plant to plant.</param>
    public static string Limits(NoteThing? thing) =>
        "Photos show damage, not whether mites are still there: damage shows after they have fed and never heals. A tap over white paper tells more. "
        + (thing is null ? "The figures are of what was photographed; the rest may be better or worse."
            : $"The figures are of the {thing.Many} that were photographed; other {thing.Many} may be better or worse.");

    /// <summary>Cautions of a place's note, where no single plant's advice counts.</summary>
    public static IReadOnlyList<string> CautionsForAll { get; } =
    [
        "Before anything is sprayed, tap: damage alone does not show that mites are there now.",
        "The label is the law. Nothing on open flowers or where bees fly.",
    ];

    /// <summary>How it was measured.</summary>
    /// <param name="toolVersion">Version of the tool; empty for none.</param>
    /// <param name="thing">What was measured; null where it differs from plant to plant.</param>
    public static string Measured(string toolVersion, NoteThing? thing)
    {
        string tool = "LeafScan" + (toolVersion.Length > 0 ? " " + toolVersion : "");
        return thing is null
            ? $"{tool} measured photos of leaves, twigs or whole plants: the share of foliage with pale specks, yellow or brown, against the sound colour of each. In 9 of 10 cases such a range holds the true mean of the plant."
            : $"{tool} measured {thing.Photos}: the share of {thing.Area} with pale specks, yellow or brown, against the sound colour of {thing.Itself}. "
                + $"Every {thing.One} counts alike; in 9 of 10 cases such a range holds {thing.TrueMean}.";
    }

    /// <summary>What was seen in a place.</summary>
    public static IReadOnlyList<string> SeenInPlace(IReadOnlyList<NotePlant> ranked, NoteForms forms)
    {
        NotePlant[] measured = [.. ranked.Where(plant => plant.Now is not null)];
        if (measured.Length == 0)
        {
            return ["No plant of this place has been measured yet."];
        }

        NotePlant worst = measured[0];
        string last = forms.Day(measured.Max(plant => plant.Now!.Day));
        string first = $"{NoteForms.Count(measured.Length, "plant was", "plants were")} measured, the last time on {last}. "
            + $"The most damaged is {worst.Code} with {NoteForms.Percent(worst.Now!.Damage)} of its {NoteThing.Of(worst.Now!.Kind).Area}.";
        NotePlant[] more = [.. measured.Where(plant => plant.Before is { } before && plant.Now!.Interval.Low > before.Interval.High)];
        return more.Length == 0 ? [first] : [first, $"Surely more damage than before: {string.Join(", ", more.Select(plant => plant.Code))}."];
    }
}
