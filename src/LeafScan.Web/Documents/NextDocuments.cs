namespace LeafScan.Web.Documents;

/// <summary>What to do next with one plant: the lines that "leafscan next" prints.</summary>
internal sealed record NextPlant
{
    public required long PlantId { get; init; }

    public required string Code { get; init; }

    public required string Place { get; init; }

    public required string? Client { get; init; }

    public required string? Name { get; init; }

    public required string? Species { get; init; }

    public required string? Block { get; init; }

    /// <summary>Mean damage of the leaves of the last walk, 0 to 1; null when none was measured.</summary>
    public required double? Damage { get; init; }

    /// <summary>Day of its last leaves; null for none.</summary>
    public required DateOnly? LastWalk { get; init; }

    /// <summary>Day on which to look again.</summary>
    public required DateOnly LookAgainOn { get; init; }

    /// <summary>Whether nothing needs doing until then.</summary>
    public required bool Rest { get; init; }

    /// <summary>Most pressing first; the last says when to look again and why then.</summary>
    public required IReadOnlyList<NextStep> Steps { get; init; }

    /// <summary>What to mind before anything is sprayed.</summary>
    public required IReadOnlyList<NextStep> Cautions { get; init; }

    /// <summary>How many branches to tap; null at rest.</summary>
    public required NextTaps? Taps { get; init; }
}

/// <summary>One line of advice with why, and where that is from.</summary>
internal sealed record NextStep(string Words, string Reason, string Source);

/// <summary>A plan of taps: branches, or tap until the running total is reached.</summary>
internal sealed record NextTaps(int Branches, string Because, IReadOnlyList<NextStop> StopWhenMitesReach, string StopBecause);

/// <summary>Total of mites at which tapping may stop after so many taps.</summary>
internal sealed record NextStop(int Taps, int Mites);
