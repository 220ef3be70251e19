using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Verdicts;

/// <summary>The verdict in a word. The first four judge care; the last two take the place of the first two where nothing was done.</summary>
public enum VerdictWord
{
    /// <summary>The care holds the mites: new damage or mites are clearly fewer, and nothing else explains it.</summary>
    Working,

    /// <summary>New damage or mites go on in spite of the care, or the untreated plants did no worse.</summary>
    NotWorking,

    /// <summary>Not enough time or visits since the care, or since the first visit.</summary>
    TooEarly,

    /// <summary>What was recorded allows no answer.</summary>
    CannotTell,

    /// <summary>Without care: the leaves gained damage.</summary>
    NewDamage,

    /// <summary>Without care: the same leaves surely gained less than what matters.</summary>
    NoNewDamage,
}

/// <summary>What the record says about the care of a plant, and what to do to know more.</summary>
public sealed record Verdict
{
    /// <summary>The word.</summary>
    public required VerdictWord Word { get; init; }

    /// <summary>The reasons, one sentence each, from what was measured.</summary>
    public required IReadOnlyList<string> Because { get; init; }

    /// <summary>The next useful step, one or two sentences.</summary>
    public required string Next { get; init; }

    /// <summary>What else could have made the figures.</summary>
    public required IReadOnlyList<Rival> Rivals { get; init; }

    /// <summary>The figures behind the reasons.</summary>
    public required VerdictFigures Figures { get; init; }

    /// <summary>Day of the first care entry that is judged; null when nothing was done.</summary>
    public required DateOnly? CareSince { get; init; }

    /// <summary>Direction of the plant's damage over its visits; null with too few of them. The word never hangs on it.</summary>
    public DamageTrend? Trend { get; init; }
}

/// <summary>Another explanation for what was seen.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Sentence">The same in a sentence.</param>
public sealed record Rival(RivalKind Kind, string Sentence);

/// <summary>Kinds of other explanations.</summary>
public enum RivalKind
{
    /// <summary>Mites stop by themselves at this time of the year.</summary>
    QuietSeason,

    /// <summary>Cooler weather slowed the mites.</summary>
    CoolerWeather,

    /// <summary>Little green is left to feed on.</summary>
    LittleLeft,

    /// <summary>Untreated plants got better too.</summary>
    ChecksFellToo,

    /// <summary>Predators are on the tap sheets, and were not released as care.</summary>
    Predators,

    /// <summary>Damaged leaves dropped or were no longer photographed.</summary>
    LeafDrop,

    /// <summary>New leaves thin out the average.</summary>
    NewLeaves,

    /// <summary>Readings went down, which damage does not: other light, camera or person.</summary>
    OtherPhotos,

    /// <summary>The plant was wet when it was tapped.</summary>
    WetTaps,
}

/// <summary>Figures of a verdict. Null where the record has nothing to make them from. Shares 0..1, rates a week, intervals 90 %.</summary>
public sealed record VerdictFigures
{
    /// <summary>Tagged leaves seen often enough to follow, before and since.</summary>
    public int SameLeafCount { get; init; }

    /// <summary>New damage a week on the same leaves before the care; without care, over the whole series.</summary>
    public double? NewDamageBefore { get; init; }

    /// <summary>Its interval.</summary>
    public Interval? NewDamageBeforeInterval { get; init; }

    /// <summary>New damage a week on the same leaves since the care.</summary>
    public double? NewDamageSince { get; init; }

    /// <summary>Its interval.</summary>
    public Interval? NewDamageSinceInterval { get; init; }

    /// <summary>Mean damage of new growth before the care.</summary>
    public double? NewGrowthBefore { get; init; }

    /// <summary>Mean damage of new growth on the last visit with new growth since the care.</summary>
    public double? NewGrowthSince { get; init; }

    /// <summary>Live mites a tap before the care: the last day with taps.</summary>
    public double? MitesBefore { get; init; }

    /// <summary>Live mites a tap since the care, mean of all dry taps.</summary>
    public double? MitesSince { get; init; }

    /// <summary>Check plants with figures to compare.</summary>
    public int CheckPlantCount { get; init; }

    /// <summary>Live mites a tap on the check plants on or before the same day.</summary>
    public double? CheckMitesBefore { get; init; }

    /// <summary>Live mites a tap on the check plants since.</summary>
    public double? CheckMitesSince { get; init; }

    /// <summary>
    /// Share of live mites that the care took, against the check plants (Henderson and Tilton 1955, J. Econ. Entomol. 48:157); below 0
    /// when the treated plant did worse. Null without taps on both, or with a nought where the formula divides.
    /// </summary>
    public double? Efficacy { get; init; }

    /// <summary>Its interval.</summary>
    public Interval? EfficacyInterval { get; init; }

    /// <summary>The same share by Sun and Shepard 1947, J. Econ. Entomol. 40:710-715; always equal to <see cref="Efficacy"/>.</summary>
    public double? EfficacyBySunShepard { get; init; }

    /// <summary>
    /// Share by Abbott 1925, J. Econ. Entomol. 18:265-267, from live mites since the care alone; null unless the plants began alike or nobody counted
    /// before, which <see cref="EfficacyBecause"/> then says.
    /// </summary>
    public double? EfficacyByAbbott { get; init; }

    /// <summary>Which of the formulas apply and why the others do not, one or two sentences; null where there is no care to judge.</summary>
    public string? EfficacyBecause { get; init; }

    /// <summary>New damage a week on the check plants' same leaves before the care.</summary>
    public double? CheckNewDamageBefore { get; init; }

    /// <summary>New damage a week on the check plants' same leaves since.</summary>
    public double? CheckNewDamageSince { get; init; }
}
