using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Bench.Repeat;

/// <summary>What one shot read, all leaves of the photo together.</summary>
/// <param name="Damage">Damage, 0..1.</param>
/// <param name="Stippled">Stippled share, 0..1.</param>
/// <param name="Specks">Number of specks.</param>
/// <param name="OutlineIou">Overlap of the outline with the truth as this shot shows it, 0..1.</param>
/// <param name="DamageShown">True damage as this shot shows it, 0..1: from a tilted camera the nearer end of a leaf is larger, and so is the damage that lies there.</param>
public sealed record ShotReading(double Damage, double Stippled, int Specks, double OutlineIou, double DamageShown);

/// <summary>One photo shot again several times.</summary>
/// <param name="Key">Set and file.</param>
/// <param name="Set">Set.</param>
/// <param name="TrueDamage">True damage, 0..1.</param>
/// <param name="Itself">Reading of the photo itself; null when it was refused.</param>
/// <param name="Shots">Readings of the shots that were measured.</param>
/// <param name="Refused">Shots that were refused.</param>
public sealed record LeafRepeat(string Key, string Set, double TrueDamage, ShotReading? Itself, IReadOnlyList<ShotReading> Shots, int Refused)
{
    /// <summary>Standard deviation of damage over the shots (divisor one less than their number); not a number for fewer than two.</summary>
    public double DamageSd => Spread(s => s.Damage);

    /// <summary>Standard deviation of the stippled share.</summary>
    public double StippledSd => Spread(s => s.Stippled);

    /// <summary>Standard deviation of the number of specks.</summary>
    public double SpecksSd => Spread(s => s.Specks);

    /// <summary>Mean damage of the shots, 0..1; not a number without shots.</summary>
    public double DamageMean => Shots.Count == 0 ? double.NaN : Shots.Average(s => s.Damage);

    /// <summary>Mean number of specks of the shots.</summary>
    public double SpecksMean => Shots.Count == 0 ? double.NaN : Shots.Average(s => (double)s.Specks);

    /// <summary>
    /// Standard deviation within leaves, pooled: root of the mean of the leaves' variances, each leaf weighed by its number of
    /// shots less one (one-way analysis of variance; Bland and Altman, Measurement error, BMJ 1996, 313:744, value from memory).
    /// </summary>
    /// <param name="leaves">The leaves; those with fewer than two shots tell nothing.</param>
    /// <param name="value">What was read.</param>
    /// <returns>Not a number when no leaf has two shots.</returns>
    public static double Pooled(IReadOnlyList<LeafRepeat> leaves, Func<ShotReading, double> value)
    {
        LeafRepeat[] used = [.. leaves.Where(l => l.Shots.Count > 1)];
        double degrees = used.Sum(l => l.Shots.Count - 1);
        return degrees == 0 ? double.NaN : Math.Sqrt(used.Sum(l => (l.Shots.Count - 1) * Sample.Variance([.. l.Shots.Select(value)])) / degrees);
    }

    /// <summary>The leaf with only those shots whose outline was found: what differs then is the judging of tissue.</summary>
    /// <param name="leastIou">Least overlap of the outline with the truth.</param>
    public LeafRepeat Outlined(double leastIou = 0.9) => this with { Shots = [.. Shots.Where(s => s.OutlineIou >= leastIou)] };

    private double Spread(Func<ShotReading, double> value)
        => Shots.Count < 2 ? double.NaN : Math.Sqrt(Sample.Variance([.. Shots.Select(value)]));
}
