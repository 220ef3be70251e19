using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Sampling;

/// <summary>Where a share lies beside a threshold.</summary>
public enum SideWord
{
    /// <summary>Surely below.</summary>
    Below,

    /// <summary>Surely above.</summary>
    Above,

    /// <summary>The leaves do not allow an answer.</summary>
    CannotTell,
}

/// <summary>Leaves with and without mites beside a threshold, for a sample of fixed size.</summary>
/// <param name="Infested">Leaves with mites.</param>
/// <param name="Count">Leaves looked at.</param>
/// <param name="Share">Share with mites.</param>
/// <param name="Interval">Wilson's interval of the share.</param>
/// <param name="Side">Where the whole interval lies.</param>
public sealed record PresenceAbsence(int Infested, int Count, double Share, Interval Interval, SideWord Side)
{
    /// <summary>Judges a sample.</summary>
    /// <param name="infested">Leaves with mites, 0 to <paramref name="count"/>.</param>
    /// <param name="count">Leaves looked at, at least 1.</param>
    /// <param name="threshold">Share that asks for something, 0..1.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    public static PresenceAbsence Of(int infested, int count, double threshold, double level)
    {
        Interval interval = WilsonInterval.Of(infested, count, level);
        SideWord side = interval.High < threshold ? SideWord.Below : interval.Low > threshold ? SideWord.Above : SideWord.CannotTell;
        return new PresenceAbsence(infested, count, (double)infested / count, interval, side);
    }
}
