namespace LeafScan.Trends.Progress;

/// <summary>Apparent rate of an epidemic that grows along a logistic curve (van der Plank 1963, Plant Diseases: Epidemics and Control).</summary>
public static class ApparentRate
{
    /// <summary>Rate per day: (logit x2 - logit x1)/(t2 - t1). For shares of leaves affected, which can rise and level off; damage of the same leaves does the same.</summary>
    /// <param name="first">Share at first, 0..1.</param>
    /// <param name="second">Share later, 0..1.</param>
    /// <param name="days">Days between, more than 0.</param>
    /// <returns>Null, "cannot say", where a share is 0 or 1: the curve has no rate there, and no value is put in its place.</returns>
    public static double? Of(double first, double second, double days)
    {
        Check(first, nameof(first));
        Check(second, nameof(second));
        if (!(days > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(days), days, "The second share must be of a later day.");
        }

        return first is 0 or 1 || second is 0 or 1 ? null : (Logit(second) - Logit(first)) / days;
    }

    private static double Logit(double share) => Math.Log(share / (1 - share));

    private static void Check(double share, string name)
    {
        if (!(share is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(name, share, "A share lies between 0 and 1.");
        }
    }
}
