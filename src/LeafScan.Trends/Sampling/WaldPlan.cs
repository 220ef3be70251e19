namespace LeafScan.Trends.Sampling;

/// <summary>What a leaf-by-leaf look says so far.</summary>
public enum StopWord
{
    /// <summary>Look at more.</summary>
    GoOn,

    /// <summary>Stop: few leaves have mites.</summary>
    Below,

    /// <summary>Stop: many leaves have mites.</summary>
    Above,

    /// <summary>The most leaves were looked at without an answer.</summary>
    Undecided,
}

/// <summary>Stop lines after a number of leaves.</summary>
/// <param name="Count">Leaves looked at.</param>
/// <param name="BelowAt">Stop as "below" with at most so many leaves with mites; null when it cannot be yet.</param>
/// <param name="AboveAt">Stop as "above" with at least so many; null when it cannot be yet.</param>
public sealed record StopLine(int Count, int? BelowAt, int? AboveAt);

/// <summary>
/// Wald's sequential test on leaves with mites (Wald 1947, Sequential Analysis; for pests Binns, Nyrop and van der Werf
/// 2000). It decides between few and many; it does not estimate. Wald knows no fewest and most leaves: both are added.
/// </summary>
public sealed record WaldPlan
{
    /// <summary>Share of leaves with mites that is surely no trouble, between 0 and <see cref="High"/>.</summary>
    public required double Low { get; init; }

    /// <summary>Share of leaves with mites that surely asks for something, between <see cref="Low"/> and 1.</summary>
    public required double High { get; init; }

    /// <summary>Risk of saying "above" at <see cref="Low"/>. Default 0.1.</summary>
    public double RiskOfFalseAlarm { get; init; } = 0.1;

    /// <summary>Risk of saying "below" at <see cref="High"/>. Default 0.1.</summary>
    public double RiskOfMissing { get; init; } = 0.1;

    /// <summary>Fewest leaves. Default 10, our own choice.</summary>
    public int LeavesLeast { get; init; } = 10;

    /// <summary>Most leaves. Default 60, our own choice.</summary>
    public int LeavesMost { get; init; } = 60;

    /// <summary>Rise of both lines for each leaf.</summary>
    public double Slope => Math.Log((1 - Low) / (1 - High)) / Gap;

    /// <summary>How far the lower line lies below slope times leaves.</summary>
    public double BelowBy => Math.Log((1 - RiskOfFalseAlarm) / RiskOfMissing) / Gap;

    /// <summary>How far the upper line lies above slope times leaves.</summary>
    public double AboveBy => Math.Log((1 - RiskOfMissing) / RiskOfFalseAlarm) / Gap;

    /// <summary>Fewest leaves, all without mites, that could end the test as "below" if <see cref="LeavesLeast"/> did not hold it.</summary>
    public int FewestCleanLeaves => (int)Math.Ceiling((BelowBy / Slope) - 1e-9);

    private double Gap => Math.Log(High * (1 - Low) / (Low * (1 - High)));

    /// <summary>The unrounded lines after a number of leaves.</summary>
    /// <param name="count">Leaves looked at, at least 1.</param>
    public (double Below, double Above) LinesAt(int count) => ((Slope * count) - BelowBy, (Slope * count) + AboveBy);

    /// <summary>The lines after a number of leaves in whole leaves.</summary>
    /// <param name="count">Leaves looked at, at least 1.</param>
    public StopLine At(int count)
    {
        (double below, double above) = LinesAt(count);
        int low = (int)Math.Floor(below + 1e-9);
        int high = (int)Math.Ceiling(above - 1e-9);
        bool mayStop = count >= LeavesLeast;
        return new StopLine(count, mayStop && low >= 0 ? low : null, mayStop && high <= count ? high : null);
    }

    /// <summary>What to do after a number of leaves.</summary>
    /// <param name="infested">Leaves with mites.</param>
    /// <param name="count">Leaves looked at.</param>
    public StopWord Judge(int infested, int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(infested);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(infested, count);
        StopLine line = At(count);
        if (infested <= line.BelowAt)
        {
            return StopWord.Below;
        }

        if (infested >= line.AboveAt)
        {
            return StopWord.Above;
        }

        return count >= LeavesMost ? StopWord.Undecided : StopWord.GoOn;
    }

    /// <summary>Refuses values outside their ranges.</summary>
    /// <exception cref="ArgumentException">A value is outside its range; the message says which.</exception>
    public WaldPlan Checked()
    {
        if (!(Low > 0 && Low < High && High < 1))
        {
            throw new ArgumentException("The low share must lie above 0 and below the high share, the high share below 1.");
        }

        if (!(RiskOfFalseAlarm is > 0 and < 0.5 && RiskOfMissing is > 0 and < 0.5))
        {
            throw new ArgumentException("Each risk must lie above 0 and below 0.5, such as 0.1.");
        }

        return LeavesLeast >= 1 && LeavesMost >= LeavesLeast
            ? this
            : throw new ArgumentException("The fewest leaves must be at least 1 and no more than the most leaves.");
    }
}
