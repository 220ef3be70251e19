namespace LeafScan.Training.Seasons;

/// <summary>What the care did in truth.</summary>
public enum CareTruth
{
    /// <summary>It left at most half of the mite-days there would have been, and the mites became no more than they were.</summary>
    Works,

    /// <summary>It left at least four fifths.</summary>
    Fails,

    /// <summary>Anything between, and care that helps while the mites still grow: neither word is plainly wrong.</summary>
    Between,

    /// <summary>No care: the leaves gained 2 points or more.</summary>
    DamageCame,

    /// <summary>No care: the leaves gained less than 0.3 points.</summary>
    NoneCame,

    /// <summary>No care: something between.</summary>
    LittleCame,
}

/// <summary>Reads the truth off a season that was run.</summary>
internal static class SeasonTruth
{
    /// <summary>
    /// The truth about the care up to a visit, or for as long as it is judged: mite-days with it over mite-days of the same plant without it.
    /// </summary>
    public static CareTruth OfCare(Season season, int lastVisit, int daysJudged)
    {
        int first = SeasonSpec.CareDay;
        int lastCare = season.Spec.CareDays.Where(day => first + day <= lastVisit).Max();
        int lastDay = Math.Min(lastVisit, first + lastCare + daysJudged);
        double with = season.Cared.Mites[first..(lastDay + 1)].Sum();
        double without = season.Left.Mites[first..(lastDay + 1)].Sum();
        double rest = with / without;
        bool holds = season.Cared.Mites[Math.Min(lastDay, first + 3)..(lastDay + 1)].Average() <= season.Cared.Mites[first - 1];
        return rest >= 0.8 ? CareTruth.Fails : rest <= 0.5 && holds ? CareTruth.Works : CareTruth.Between;
    }

    /// <summary>The truth about an untreated plant: what leaves that are there on both days gained, as it shows.</summary>
    public static CareTruth OfUntreated(Season season, int firstDay, int lastDay)
    {
        int[] there = [.. Enumerable.Range(0, Season.LeafCount).Where(leaf => season.Left.DropDay[leaf] > lastDay)];
        double gain = there.Length == 0 ? 1 : there.Average(leaf => season.Left.Shown(leaf, lastDay) - season.Left.Shown(leaf, firstDay));
        return gain >= 0.02 ? CareTruth.DamageCame : gain < 0.003 ? CareTruth.NoneCame : CareTruth.LittleCame;
    }
}
