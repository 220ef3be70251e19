using LeafScan.Trends.Verdicts;

namespace LeafScan.Training.Seasons;

/// <summary>One verdict on one season in one design, beside the truth.</summary>
/// <param name="Design">How it was looked at.</param>
/// <param name="Truth">What was so.</param>
/// <param name="Word">What was said.</param>
/// <param name="PerfectWord">What the same rules say of the same visits with nothing but truth on record.</param>
public sealed record SeasonTrial(Design Design, CareTruth Truth, VerdictWord Word, VerdictWord PerfectWord)
{
    /// <summary>Leaf numbers that are tried.</summary>
    public static IReadOnlyList<int> LeafCounts { get; } = [5, 10, 20];

    /// <summary>The right word; null where no word is plainly right.</summary>
    public VerdictWord? Right => RightOf(Truth);

    /// <summary>The plainly wrong word.</summary>
    public VerdictWord? Wrong => Truth switch
    {
        CareTruth.Works => VerdictWord.NotWorking,
        CareTruth.Fails => VerdictWord.Working,
        CareTruth.DamageCame => VerdictWord.NoNewDamage,
        CareTruth.NoneCame => VerdictWord.NewDamage,
        _ => null,
    };

    /// <summary>Runs a season and judges it in every design.</summary>
    /// <param name="seed">Seed of the season.</param>
    /// <param name="strength">How well its care works.</param>
    /// <param name="options">Limits of the verdict.</param>
    /// <param name="habit">How the photos are taken; null for the defaults.</param>
    /// <param name="plantVariety">How much plants differ, times what is usual.</param>
    public static IEnumerable<SeasonTrial> Of(int seed, CareStrength strength, VerdictOptions options, PhotoHabit? habit = null, double plantVariety = 1)
    {
        SeasonSpec spec = SeasonChooser.Choose(seed, strength) with { PlantVariety = plantVariety };
        Season season = Season.Run(spec);
        Observer observer = new(season, false, habit);
        Observer perfect = new(season, true);

        // Of the plants without care every other one has next to no mites: most plants of a nursery have none.
        Season alone = seed % 2 == 0 ? season : Season.Run(spec with { MitesAtCare = 0.02 * spec.MitesAtCare, Arrivals = 0.02 * spec.Arrivals });
        Observer watcher = alone == season ? observer : new(alone, false, habit);
        Observer perfectWatcher = alone == season ? perfect : new(alone, true);
        for (int visits = 2; visits <= 8; visits++)
        {
            int[] days = season.Visits(visits);
            CareTruth truth = SeasonTruth.OfCare(season, days[^1], options.DaysJudged);
            VerdictWord best = CareVerdict.Judge(perfect.Cared(new Design(Season.LeafCount, visits, true, true)), options).Word;
            CareTruth untreated = SeasonTruth.OfUntreated(alone, days[0], days[^1]);
            VerdictWord bestUntreated = CareVerdict.Judge(perfectWatcher.Untreated(new Design(Season.LeafCount, visits, false, false)), options).Word;
            foreach (int leaves in LeafCounts)
            {
                foreach ((bool checks, bool taps) in ((bool, bool)[])[(false, false), (false, true), (true, false), (true, true)])
                {
                    Design design = new(leaves, visits, checks, taps);
                    yield return new SeasonTrial(design, truth, CareVerdict.Judge(observer.Cared(design), options).Word, best);
                }

                Design plain = new(leaves, visits, false, false);
                yield return new SeasonTrial(plain, untreated, CareVerdict.Judge(watcher.Untreated(plain), options).Word, bestUntreated);
            }
        }
    }

    private static VerdictWord? RightOf(CareTruth truth) => truth switch
    {
        CareTruth.Works => VerdictWord.Working,
        CareTruth.Fails => VerdictWord.NotWorking,
        CareTruth.DamageCame => VerdictWord.NewDamage,
        CareTruth.NoneCame => VerdictWord.NoNewDamage,
        _ => null,
    };
}
