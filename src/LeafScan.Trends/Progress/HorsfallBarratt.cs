namespace LeafScan.Trends.Progress;

/// <summary>
/// The Horsfall-Barratt scale of 12 grades (Horsfall and Barratt 1945), with the arithmetic midpoints that Del Ponte's R for
/// Plant Disease Epidemiology lists; some older tables have others. Keep the share and show the grade: turning a share
/// into a grade and back loses agreement.
/// </summary>
public static class HorsfallBarratt
{
    // Upper ends of the grades 1 to 10, included.
    private static readonly double[] Upper = [0.03, 0.06, 0.12, 0.25, 0.5, 0.75, 0.88, 0.94, 0.97, 1];
    private static readonly double[] Midpoints = [0, 0.015, 0.045, 0.09, 0.185, 0.375, 0.625, 0.815, 0.91, 0.955, 0.985, 1];

    /// <summary>Grade of a share: 0 for exactly none, 11 for exactly all.</summary>
    /// <param name="share">Share affected, 0..1.</param>
    public static int GradeOf(double share)
    {
        if (!(share is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "A share lies between 0 and 1.");
        }

        return share switch
        {
            0 => 0,
            1 => 11,
            _ => Array.FindIndex(Upper, upper => share <= upper) + 1,
        };
    }

    /// <summary>Middle of a grade as a share, 0..1.</summary>
    /// <param name="grade">Grade, 0 to 11.</param>
    public static double MidpointOf(int grade)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(grade);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(grade, 11);
        return Midpoints[grade];
    }
}
