namespace LeafScan.Notes.Client;

/// <summary>What stands on every note.</summary>
internal static class NoteFixed
{
    public const string Limits =
        "Photos show damage, not whether mites are still there: damage shows after they have fed and never heals. A tap over white paper tells more. "
        + "The figures are of the leaves that were photographed; other leaves may be better or worse.";

    /// <summary>Cautions of a place's note, where no single plant's advice counts.</summary>
    public static IReadOnlyList<string> CautionsForAll { get; } =
    [
        "Before anything is sprayed, tap: damage alone does not show that mites are there now.",
        "The label is the law. Nothing on open flowers or where bees fly.",
    ];

    public static string Measured(string toolVersion) =>
        $"LeafScan{(toolVersion.Length > 0 ? " " + toolVersion : "")} measured photos of single leaves: the share of leaf area with pale specks, yellow or brown, against the sound colour of the same leaf. "
        + "Every leaf counts alike; in 9 of 10 cases such a range holds the true mean of the plant's leaves.";

    /// <summary>What was seen in a place.</summary>
    public static IReadOnlyList<string> SeenInPlace(IReadOnlyList<NotePlant> ranked, NoteForms forms)
    {
        NotePlant[] measured = [.. ranked.Where(plant => plant.Now is not null)];
        if (measured.Length == 0)
        {
            return ["No leaf of this place has been measured yet."];
        }

        NotePlant worst = measured[0];
        string last = forms.Day(measured.Max(plant => plant.Now!.Day));
        string first = $"{NoteForms.Count(measured.Length, "plant was", "plants were")} measured, the last time on {last}. "
            + $"The most damaged is {worst.Code} with {NoteForms.Percent(worst.Now!.Damage)} of its leaf area.";
        NotePlant[] more = [.. measured.Where(plant => plant.Before is { } before && plant.Now!.Interval.Low > before.Interval.High)];
        return more.Length == 0 ? [first] : [first, $"Surely more damage than before: {string.Join(", ", more.Select(plant => plant.Code))}."];
    }
}
