using LeafScan.Training.Seasons;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Training.Tests.Seasons;

public sealed class SeasonTests
{
    [Fact]
    public void Without_care_that_takes_anything_both_runs_are_the_same()
    {
        Season season = Season.Run(SeasonChooser.Choose(7, CareStrength.None) with { CareTakes = 0 });
        Assert.Equal(season.Left.Mites, season.Cared.Mites);
    }

    [Fact]
    public void Before_the_care_both_runs_are_the_same_and_after_it_care_leaves_fewer()
    {
        Season season = Season.Run(SeasonChooser.Choose(7, CareStrength.Most));
        Assert.Equal(season.Left.Mites[..SeasonSpec.CareDay], season.Cared.Mites[..SeasonSpec.CareDay]);
        Assert.True(season.Cared.Mites[SeasonSpec.CareDay] < 0.5 * season.Left.Mites[SeasonSpec.CareDay]);
    }

    [Fact]
    public void Damage_never_heals()
    {
        Season season = Season.Run(SeasonChooser.Choose(11, CareStrength.Most));
        for (int day = 1; day < SeasonSpec.Days; day++)
        {
            for (int leaf = 0; leaf < Season.LeafCount; leaf++)
            {
                Assert.InRange(season.Cared.Shown(leaf, day), season.Cared.Shown(leaf, day - 1), 1);
            }
        }
    }

    [Fact]
    public void A_crash_ends_the_mites_of_every_plant()
    {
        Season season = Season.Run(SeasonChooser.Choose(3, CareStrength.None) with { CrashDay = SeasonSpec.CareDay, CrashRate = 0.3 });
        foreach (PlantRun plant in (PlantRun[])[season.Left, .. season.Checks])
        {
            Assert.True(plant.Mites[^1] < 0.01 * plant.Mites.Max());
        }
    }

    [Fact]
    public void The_same_seed_gives_the_same_verdicts()
        => Assert.Equal(SeasonTrial.Of(5, CareStrength.Most, new VerdictOptions()), SeasonTrial.Of(5, CareStrength.Most, new VerdictOptions()));

    [Fact]
    public void A_shorter_record_is_part_of_a_longer_one()
    {
        Season season = Season.Run(SeasonChooser.Choose(5, CareStrength.Most));
        Assert.Equal(8, season.Visits(8).Length);
        for (int visits = 2; visits <= 8; visits++)
        {
            int[] days = season.Visits(visits);
            Assert.Equal((visits + 1) / 2, days.Count(day => day < SeasonSpec.CareDay));
            Assert.Equal(visits, days.Length);
        }
    }

    [Fact]
    public void Clumped_counts_have_the_mean_and_spread_they_should()
    {
        // Negative binomial: variance = mean + mean²/k; 8 + 64/2 = 40.
        Random random = new(1);
        double[] counts = [.. Enumerable.Range(0, 20_000).Select(_ => (double)Counts.NegativeBinomial(8, 2, random))];
        double mean = counts.Average();
        Assert.InRange(mean, 7.8, 8.2);
        Assert.InRange(counts.Average(count => (count - mean) * (count - mean)), 37, 43);
    }

    [Fact]
    public void A_confident_word_is_seldom_wrong_and_good_care_is_often_seen()
    {
        SeasonTable table = new(Enumerable.Range(20_000, 150).SelectMany(seed =>
            Enum.GetValues<CareStrength>().SelectMany(strength => SeasonTrial.Of(seed, strength, new VerdictOptions()))));
        foreach (((Design design, CareTruth truth), SeasonCell cell) in table.Cells.Where(cell => cell.Value.Seasons >= 100))
        {
            Assert.True(cell.WrongShare <= 0.05, $"{design} {truth}: {cell}");
        }

        Design best = new(20, 8, true, true);
        Assert.True(table.Cell(best, CareTruth.Works).Right > 0.25 * table.Cell(best, CareTruth.Works).Seasons);
        Assert.True(table.Cell(best, CareTruth.Fails).Right > 0.3 * table.Cell(best, CareTruth.Fails).Seasons);
        Assert.True(table.Cell(new Design(10, 4, false, false), CareTruth.DamageCame).Right > 0.8 * table.Cell(new Design(10, 4, false, false), CareTruth.DamageCame).Seasons);
    }
}
