using LeafScan.Trends.Statistics;
using static LeafScan.Trends.Verdicts.VerdictText;

namespace LeafScan.Trends.Verdicts;

/// <summary>A plant to which nothing was done: did it gain damage while it was watched?</summary>
internal static class UntreatedVerdict
{
    public static Verdict Judge(PlantHistory plant, HistoryVisit[] visits, VerdictOptions options)
    {
        SameLeaves leaves = SameLeaves.Between(visits, [], false, options);
        List<string> because =
        [
            plant.Care.Count == 0
            ? "No care is on record, so this only says whether mite damage came."
            : "Nothing was done to it, so this only says whether mite damage came.",
        ];
        VerdictWord word = WordOf(visits, leaves, because, options);
        Rival[] rivals = [.. Rivals.OfLeaves(visits, leaves, options)];
        if (plant.Taps.Count > 0)
        {
            DateOnly last = plant.Taps.Max(tap => tap.Day);
            HistoryTap[] taps = [.. plant.Taps.Where(tap => tap.Day == last)];
            because.Add($"The last taps ({Day(last)}) found {Number((double)taps.Sum(tap => tap.LiveMites) / taps.Sum(tap => tap.Branches))} live mites a tap.");
        }

        because.AddRange(rivals.Select(rival => rival.Sentence));
        return new Verdict
        {
            Word = word,
            Because = because,
            Next = Next(word, plant, visits, options),
            Rivals = rivals,
            Figures = new VerdictFigures
            {
                SameLeafCount = visits.Length == 0 ? 0 : visits[^1].Leaves.Count(leaf => leaf.Tag is not null),
                NewDamageBefore = leaves.Before?.Value,
                NewDamageBeforeInterval = leaves.Before?.Interval(),
                CheckPlantCount = plant.CheckPlants.Count,
            },
            CareSince = null,
            Trend = DamageTrend.Of(visits),
        };
    }

    private static VerdictWord WordOf(HistoryVisit[] visits, SameLeaves leaves, List<string> because, VerdictOptions options)
    {
        if (visits.Length < 2)
        {
            because.Add(visits.Length == 0 ? "No leaf was measured yet." : $"There is one visit only ({Day(visits[0].Day)}).");
            return VerdictWord.TooEarly;
        }

        int days = visits[^1].Day.DayNumber - visits[0].Day.DayNumber;
        if (days < options.DaysLeast)
        {
            because.Add($"The visits lie {Count(days, "day", "days")} apart; damage takes longer to show.");
            return VerdictWord.TooEarly;
        }

        VerdictWord word = leaves.Before is { } rate
            ? OnSameLeaves(rate, leaves.WeeksBefore, because, options)
            : OnOtherLeaves(visits, because, options);
        if (word == VerdictWord.NewDamage && visits.Length <= 3)
        {
            because.Add($"{(visits.Length == 2 ? "Two" : "Three")} visits show that damage came between them, not that it still comes.");
        }

        return word;
    }

    private static VerdictWord OnSameLeaves(Estimate rate, double weeks, List<string> because, VerdictOptions options)
    {
        Interval gain = new(rate.Lower(options.Risk) * weeks, rate.Upper(options.Risk) * weeks, 1 - (2 * options.Risk));
        because.Add($"The same leaves gained {Points(rate.Value * weeks)} points of damage in {Number(weeks)} weeks ({Between(gain)}).");
        if (gain.Low > 0 && rate.Value * weeks >= 0.75 * options.GainThatMatters)
        {
            return VerdictWord.NewDamage;
        }

        if (gain.High < options.GainThatMatters)
        {
            because.Add($"That is surely less than {Points(options.GainThatMatters)} points.");
            return VerdictWord.NoNewDamage;
        }

        because.Add("Leaves and photos vary too much to say whether any came.");
        return VerdictWord.CannotTell;
    }

    // Other leaves each time: a clear rise still means that damage came; that none came can be said only where there is none.
    private static VerdictWord OnOtherLeaves(HistoryVisit[] visits, List<string> because, VerdictOptions options)
    {
        double[] first = [.. visits[0].Leaves.Where(leaf => leaf.Age != LeafAge.NewGrowth).Select(leaf => leaf.Damage)];
        double[] last = [.. visits[^1].Leaves.Where(leaf => leaf.Age != LeafAge.NewGrowth).Select(leaf => leaf.Damage)];
        if (first.Length < options.SameLeavesLeast || last.Length < options.SameLeavesLeast)
        {
            because.Add($"There are {first.Length} and {last.Length} leaves on the first and the last visit; fewer than {options.SameLeavesLeast} say nothing of a plant.");
            return VerdictWord.CannotTell;
        }

        because.Add($"Mean mite damage was {Points(first.Average())} % on {Day(visits[0].Day)} ({first.Length} leaves) and {Points(last.Average())} % on {Day(visits[^1].Day)} ({last.Length} leaves).");

        // Which leaves are picked is a choice, so the demand is higher than for the same leaves.
        WelchDifference welch = WelchDifference.Of(first, last, 1 - (options.Risk / 2));
        double leafNoise = visits[^1].Leaves.Average(leaf => SameLeaves.Noise(leaf, options));
        double least = Math.Sqrt((leafNoise * ((1.0 / first.Length) + (1.0 / last.Length))) + (2 * options.VisitSpread * options.VisitSpread));
        if (welch.Interval.Low > 0 && welch.Difference > 3 * least && welch.Difference >= 0.75 * options.GainThatMatters)
        {
            because.Add("That is more than other leaves in the photos explain.");
            return VerdictWord.NewDamage;
        }

        double upper = StudentMean.Of(last, 1 - (2 * options.Risk)).High + (2 * options.VisitSpread);
        if (upper < options.GainThatMatters && last.Length >= 5)
        {
            because.Add("Damage does not heal, so hardly any can have come.");
            return VerdictWord.NoNewDamage;
        }

        because.Add("The leaves are not marked as the same ones, and an average of other leaves can rise or fall without the mites.");
        return VerdictWord.CannotTell;
    }

    private static string Next(VerdictWord word, PlantHistory plant, HistoryVisit[] visits, VerdictOptions options) => word switch
    {
        VerdictWord.NewDamage => "Tap: damage shows after the mites have fed, so the sheet says whether they are still there.",
        VerdictWord.NoNewDamage => "Nothing needs doing. Look again in two weeks, in one when it is hot.",
        VerdictWord.TooEarly => visits.Length == 0
            ? "Photograph five leaves or more, and tag them."
            : $"Look again about {Day(visits[0].Day.AddDays(Math.Max(options.DaysLeast, 7)))}, at the same leaves if they are tagged.",
        _ => plant.Taps.Count == 0
            ? "Tag ten leaves, photograph the same ones next week, and tap."
            : "Tag ten leaves and photograph the same ones next week.",
    };
}
