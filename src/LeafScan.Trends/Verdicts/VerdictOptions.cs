using System.ComponentModel.DataAnnotations;

namespace LeafScan.Trends.Verdicts;

/// <summary>The limits of the verdict. All are our own choices, tuned on simulated seasons (docs/method.md), unless a source is named.</summary>
public sealed record VerdictOptions
{
    /// <summary>Chance, one-sided, of a word that chance alone would give. Default 0.05.</summary>
    [Range(0.001, 0.2)]
    public double Risk { get; init; } = 0.08;

    /// <summary>
    /// Standard deviation of a leaf's damage when it is photographed again, share of the leaf. Default 0.009
    /// (docs/accuracy.md: 0.91 points on leaves in front of real backgrounds).
    /// </summary>
    [Range(0.0, 0.2)]
    public double RepeatSpread { get; init; } = 0.009;

    /// <summary>
    /// How much of a reading's own interval comes anew with each photo; the rest stays with the leaf and drops out of differences. Default 0.57:
    /// the repeat spread of 0.91 points over the 1.6 points that intervals of 5.3 points mean width stand for, same leaves.
    /// </summary>
    [Range(0.0, 1.0)]
    public double FreshShareOfInterval { get; init; } = 0.57;

    /// <summary>Standard deviation of an error that all leaves of one visit share (light, camera, person). Default 0.003; an assumption, not measured.</summary>
    [Range(0.0, 0.1)]
    public double VisitSpread { get; init; } = 0.003;

    /// <summary>Fewest leaves that must be the same. Default 3.</summary>
    [Range(2, 100)]
    public int SameLeavesLeast { get; init; } = 3;

    /// <summary>Days from the first care to a visit before anything is said: eggs survive and damage shows late. Default 7.</summary>
    [Range(1, 60)]
    public int DaysLeast { get; init; } = 7;

    /// <summary>Days after the care in which damage fed before still comes out. Default 3.</summary>
    [Range(0, 30)]
    public int DaysUntilShown { get; init; } = 3;

    /// <summary>Days for which a care entry is judged; later visits say nothing about it. Default 21.</summary>
    [Range(7, 90)]
    public int DaysJudged { get; init; } = 21;

    /// <summary>
    /// How many times what it was before new damage or mites must surely be to show by themselves that the care does not hold them.
    /// More than 1, because mites that grow are fewer in the weeks before than on the day of the care. Default 1.5.
    /// </summary>
    [Range(1.0, 10.0)]
    public double GrowthThatTells { get; init; } = 1.5;

    /// <summary>Fewest visits for a word without check plants: three never make a trend. Default 4, two of them since the care.</summary>
    [Range(2, 20)]
    public int VisitsLeastAlone { get; init; } = 4;

    /// <summary>New damage a week from which there is something to work against, share of the leaf. Default 0.01.</summary>
    [Range(0.0, 0.2)]
    public double RateThatMatters { get; init; } = 0.01;

    /// <summary>Damage gained that matters where nothing was done. Default 0.02, as in the comparison of months.</summary>
    [Range(0.0, 0.5)]
    public double GainThatMatters { get; init; } = 0.02;

    /// <summary>Hours after a rinse before a tap counts. Default 24.</summary>
    [Range(0.0, 200.0)]
    public double DryHours { get; init; } = 24;

    /// <summary>Clumping of tap counts, k of a negative binomial: smaller is more clumped. Default 2; an assumption.</summary>
    [Range(0.05, 100.0)]
    public double TapClumping { get; init; } = 2;

    /// <summary>Standard deviation of the logarithm of a plant's tap counts from day to day. Default 0.25; an assumption.</summary>
    [Range(0.0, 2.0)]
    public double TapDaySpread { get; init; } = 0.25;

    /// <summary>Standard deviation of the logarithm of growth between two plants that were treated alike. Default 0.25; an assumption.</summary>
    [Range(0.0, 2.0)]
    public double PlantSpread { get; init; } = 0.25;

    /// <summary>The same at the time of the year when mites crash by themselves: plants do not crash on the same day. Default 0.6; an assumption.</summary>
    [Range(0.0, 3.0)]
    public double PlantSpreadQuietSeason { get; init; } = 0.6;

    /// <summary>Fewest live mites on all taps before the care for taps to say anything. Default 10.</summary>
    [Range(1, 1000)]
    public int MitesLeast { get; init; } = 10;

    /// <summary>What the care must leave at most, of what would be there without it, to be called working. Default 0.5.</summary>
    [Range(0.05, 0.95)]
    public double RestIfWorking { get; init; } = 0.5;

    /// <summary>What the care leaves at least when it is called not working. Default 0.8.</summary>
    [Range(0.05, 1.0)]
    public double RestIfNotWorking { get; init; } = 0.8;

    /// <summary>Mean damage of the leaves, before or since, from which food runs out and mites fall by themselves. Default 0.2; an assumption.</summary>
    [Range(0.05, 1.0)]
    public double LittleLeftFrom { get; init; } = 0.2;

    /// <summary>Live mites a tap below which leaves that gain damage do not show that mites go on. Default 0.5.</summary>
    [Range(0.0, 10.0)]
    public double HardlyAMite { get; init; } = 0.5;

    /// <summary>Predators for each mite from which they may hold the mites by themselves. Default 0.1: one to ten (UC IPM, as other pages quote it).</summary>
    [Range(0.001, 10.0)]
    public double PredatorsThatHold { get; init; } = 0.1;

    /// <summary>Refuses values outside their ranges, all of them at once.</summary>
    /// <exception cref="ArgumentException">At least one value is outside its range.</exception>
    public VerdictOptions Checked()
    {
        var faults = new List<ValidationResult>();
        return Validator.TryValidateObject(this, new ValidationContext(this), faults, validateAllProperties: true)
            ? this
            : throw new ArgumentException(string.Join(" ", faults.Select(fault => fault.ErrorMessage)));
    }
}
