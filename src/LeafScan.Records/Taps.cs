namespace LeafScan.Records;

/// <summary>One tap on its way into the record: a branch struck over a white sheet and what crawled there counted. Zero is data.</summary>
public sealed record NewTap
{
    /// <summary>Plant.</summary>
    public required long PlantId { get; init; }

    /// <summary>Local calendar day.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>Strikes on each branch, 1 and more; null when not noted.</summary>
    public int? Strikes { get; init; }

    /// <summary>Width of the sheet in mm; null when not noted.</summary>
    public double? SheetWidthMm { get; init; }

    /// <summary>Height of the sheet in mm; null when not noted.</summary>
    public double? SheetHeightMm { get; init; }

    /// <summary>Branches that were struck over the sheet before it was counted, 1 and more; null when not noted, which counts as one.</summary>
    public int? Branches { get; init; }

    /// <summary>Hours since the plant was last wet by rinse or rain; null when not noted.</summary>
    public double? HoursSinceWet { get; init; }

    /// <summary>Live plant-feeding mites counted with a lens; null when not counted so.</summary>
    public int? MitesByLens { get; init; }

    /// <summary>Crawling specks counted on photos; null when not counted so.</summary>
    public int? MitesByPhoto { get; init; }

    /// <summary>Predators; null when not looked for.</summary>
    public int? Predators { get; init; }

    /// <summary>Reading of the sheet's photos from which <see cref="MitesByPhoto"/> comes, with what a person put right; null when there is none.</summary>
    public long? SheetId { get; init; }

    /// <summary>More in words; null for none.</summary>
    public string? Note { get; init; }
}

/// <summary>A tap on record.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="Tap">What was counted.</param>
public sealed record TapOnRecord(long Id, NewTap Tap)
{
    /// <summary>The count that stands: with the lens where there is one, because a person tells mites from other crawlers, else on photos.</summary>
    public int LiveMites => Tap.MitesByLens ?? Tap.MitesByPhoto ?? 0;

    /// <summary>Branches under this count: thresholds, means and mite-days are of one tapped branch, however many were struck over a sheet.</summary>
    public int BranchCount => Tap.Branches ?? 1;

    /// <summary>Mean live mites of a tapped branch over several taps, each branch counting alike.</summary>
    /// <param name="taps">Taps, at least one.</param>
    public static double MitesABranch(IEnumerable<TapOnRecord> taps)
    {
        (long mites, long branches) = (0, 0);
        foreach (TapOnRecord tap in taps)
        {
            mites += tap.LiveMites;
            branches += tap.BranchCount;
        }

        return branches == 0 ? throw new ArgumentException("There is no tap.", nameof(taps)) : (double)mites / branches;
    }
}

/// <summary>Weather of one day at a place.</summary>
/// <param name="Day">Local calendar day.</param>
/// <param name="LowC">Lowest temperature in °C, -90 to 60.</param>
/// <param name="HighC">Highest temperature in °C, not below <paramref name="LowC"/>.</param>
/// <param name="Source">Where the figures come from, such as the name of the file.</param>
public sealed record WeatherDay(DateOnly Day, double LowC, double HighC, string Source);

/// <summary>What adding weather did.</summary>
/// <param name="Added">Days that were new.</param>
/// <param name="Same">Days that were on record with these very figures.</param>
/// <param name="Different">Days that are on record with other figures: as the record had them where they were replaced, else as the new figures say and not taken.</param>
/// <param name="IsReplaced">Whether the days with other figures were replaced.</param>
public sealed record WeatherAdded(int Added, int Same, IReadOnlyList<WeatherDay> Different, bool IsReplaced = false);
