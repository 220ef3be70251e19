using LeafScan.Records;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.NextSteps;

/// <summary>What a plant's leaves say for the advice of a day: all of <see cref="PlantSituation"/> that needs leaves.</summary>
/// <param name="LastOn">Day of the last measured leaves; null when there are none.</param>
/// <param name="Damage">Mean damage of these leaves, 0..1; null when there are none.</param>
/// <param name="IsRising">Whether damage surely rose over the last weeks; false when it surely did not, null when that cannot be told.</param>
/// <param name="IsNewGrowthClean">Whether new growth is free of new damage; null when not looked at.</param>
public sealed record LeafState(DateOnly? LastOn, double? Damage, bool? IsRising, bool? IsNewGrowthClean)
{
    /// <summary>What the readings are of: leaf, twig or plant.</summary>
    public string Kind { get; init; } = "leaf";

    private const int NewLeavesLeast = 3;

    private const double CleanBelow = 0.02;

    /// <summary>Puts it together; leaves after the day are left out.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="leaves">Its leaves, at least those of the last <see cref="RecordSituation.DaysOfLeaves"/> days.</param>
    /// <param name="today">Day for which advice is wanted.</param>
    public static LeafState Of(Plant plant, IEnumerable<LeafOnRecord> leaves, DateOnly today)
    {
        PlantHistory history = RecordHistory.Of(plant, leaves.Where(leaf => leaf.WalkedOn <= today), [], []);
        HistoryVisit[] visits = Visits.ByDay(history.Visits);
        HistoryVisit? last = visits.Length == 0 ? null : visits[^1];
        return new LeafState(last?.Day, last?.Leaves.Average(leaf => leaf.Damage), Rising(history, visits, today), Clean(last)) { Kind = history.Kind };
    }

    // The verdict's own rules for "new damage" and "no new damage", asked of the last weeks.
    private static bool? Rising(PlantHistory history, HistoryVisit[] visits, DateOnly today)
    {
        HistoryVisit[] recent = [.. visits.Where(visit => today.DayNumber - visit.Day.DayNumber <= RecordSituation.DaysOfLeaves)];
        return CareVerdict.Judge(history with { Visits = recent }).Word switch
        {
            VerdictWord.NewDamage => true,
            VerdictWord.NoNewDamage => false,
            _ => null,
        };
    }

    private static bool? Clean(HistoryVisit? last)
    {
        double[] fresh = [.. (last?.Leaves ?? []).Where(leaf => leaf.Age == LeafAge.NewGrowth).Select(leaf => leaf.Damage)];
        return fresh.Length < NewLeavesLeast ? null : fresh.Average() < CleanBelow;
    }
}
