using System.ComponentModel.DataAnnotations;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends;

/// <summary>How series and comparisons are made. Every default that names no source is our own choice.</summary>
public sealed record TrendOptions
{
    /// <summary>A leaf counts as affected from this damage on. Default 0.05 (5 % of the judged leaf).</summary>
    [Range(0.0, 1.0)]
    public double AffectedFrom { get; init; } = 0.05;

    /// <summary>Level of trust of every interval. Default 0.9, the level of the leaf readings' own intervals.</summary>
    [Range(0.5, 0.999)]
    public double Level { get; init; } = 0.9;

    /// <summary>How often the leaves are drawn again. Default 2000; at least 100.</summary>
    [Range(100, 1_000_000)]
    public int Resamples { get; init; } = Bootstrap.UsualResamples;

    /// <summary>A leaf of which more than this share could not be judged is left out of means and counts. Default 0.5.</summary>
    [Range(0.0, 1.0)]
    public double UnassessedMost { get; init; } = 0.5;

    /// <summary>A month with fewer leaves of a plant gives no verdict. Default 5.</summary>
    [Range(2, 1000)]
    public int LeavesLeast { get; init; } = 5;

    /// <summary>Damage that surely changed by no more than this, either way, is called the same. Default 0.02 (2 points).</summary>
    [Range(0.0, 1.0)]
    public double SameWithin { get; init; } = 0.02;

    // A list of plants asks thousands of times, and looking through the ranges takes longer than the figures of a plant.
    private static readonly TrendOptions Usual = new();

    /// <summary>These options after a look at their ranges; the defaults where there are none.</summary>
    internal static TrendOptions OrUsual(TrendOptions? options) => options?.Checked() ?? Usual;

    /// <summary>Refuses values outside their ranges, all of them at once.</summary>
    /// <exception cref="ArgumentException">At least one value is outside its range.</exception>
    public TrendOptions Checked()
    {
        var faults = new List<ValidationResult>();
        return Validator.TryValidateObject(this, new ValidationContext(this), faults, validateAllProperties: true)
            ? this
            : throw new ArgumentException(string.Join(" ", faults.Select(fault => fault.ErrorMessage)));
    }
}
