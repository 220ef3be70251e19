using LeafScan.Training.Rendering.Support;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Training.Seasons;

/// <summary>
/// Mites and leaves of one plant, day by day. Growth follows temperature (<see cref="Warmth.GrowthADay"/>) up to a limit that shrinks with
/// the green that is left; a crash ends it. Leaves carry very unequal numbers; damage grows with mite-days on what is still
/// green, shows a few days late and never heals; badly damaged leaves drop.
/// </summary>
internal sealed class PlantRun
{
    private const double DaysUntilShown = 3;
    private const double DropsFrom = 0.35;
    private const double DropsADay = 0.03;

    private readonly double[][] _shown;

    private PlantRun(double[] mites, double[][] shown, int[] dropDay)
    {
        Mites = mites;
        _shown = shown;
        DropDay = dropDay;
    }

    /// <summary>Mites a leaf at the end of each day, mean over the plant.</summary>
    public double[] Mites { get; }

    /// <summary>Day on which each leaf drops; past the end when it stays.</summary>
    public int[] DropDay { get; }

    /// <summary>Damage of a leaf that shows on a day, 0..1.</summary>
    public double Shown(int leaf, int day) => _shown[day][leaf];

    /// <summary>Runs a plant. The same chance gives the same weather luck and leaves with and without care.</summary>
    public static PlantRun Of(SeasonSpec spec, double[] celsius, double[] luck, int plantSeed, bool isCaredFor, int leaves)
    {
        Random random = new(plantSeed);
        double vigour = Math.Exp(0.1 * spec.PlantVariety * random.Normal());
        int crashDay = spec.CrashDay + (int)Math.Round(3 * spec.PlantVariety * random.Normal());
        double target = spec.MitesAtCare * Math.Exp(0.5 * random.Normal());
        (double[] early, double[] late, double[] damage) = (new double[leaves], new double[leaves], new double[leaves]);
        double[] dropLuck = new double[leaves];
        for (int leaf = 0; leaf < leaves; leaf++)
        {
            // Exponential shares make the counts a leaf negative binomial with k about 1.
            (early[leaf], late[leaf]) = (-Math.Log(1 - random.NextDouble()), -Math.Log(1 - random.NextDouble()));
            damage[leaf] = 0.01 * -Math.Log(1 - random.NextDouble());
            dropLuck[leaf] = -Math.Log(1 - random.NextDouble());
        }

        double[] own = [.. Enumerable.Range(0, SeasonSpec.Days).Select(_ => 0.06 * spec.PlantVariety * random.Normal())];
        double grown = 0;
        for (int day = 0; day < SeasonSpec.CareDay; day++)
        {
            grown += Rate(day);
        }

        // From outside come mites only after the care; before, the target takes care of how many there are.
        double mites = Math.Min(target, target * Math.Exp(-grown));
        double[] curve = new double[SeasonSpec.Days];
        double[][] shown = new double[SeasonSpec.Days][];
        double[] visible = [.. damage];
        int[] drop = [.. Enumerable.Repeat(int.MaxValue, leaves)];
        for (int day = 0; day < SeasonSpec.Days; day++)
        {
            double room = Math.Max(0.02, spec.MitesMost * (1 - (damage.Average() / 0.7)));
            double rate = day >= crashDay ? -spec.CrashRate + own[day] : Rate(day);
            int sinceCare = day - SeasonSpec.CareDay;
            if (isCaredFor && spec.CareLasts > 0 && spec.CareDays.Any(c => sinceCare >= c && sinceCare < c + spec.CareLasts))
            {
                rate -= 0.3 * spec.CareTakes;
            }

            mites = (mites * Math.Exp(rate > 0 ? rate * (1 - Math.Min(1.5, mites / room)) : rate)) + (day >= SeasonSpec.CareDay && day < crashDay ? spec.Arrivals : 0);
            if (isCaredFor && spec.CareDays.Contains(sinceCare))
            {
                mites *= 1 - spec.CareTakes;
            }

            curve[day] = mites;
            double turn = (double)day / SeasonSpec.Days;
            for (int leaf = 0; leaf < leaves; leaf++)
            {
                double share = ((1 - turn) * early[leaf]) + (turn * late[leaf]);
                damage[leaf] += spec.DamagePerMiteDay * mites * share * (1 - damage[leaf]);
                visible[leaf] += (damage[leaf] - visible[leaf]) / DaysUntilShown;
                dropLuck[leaf] -= visible[leaf] > DropsFrom ? DropsADay : 0;
                if (dropLuck[leaf] < 0 && drop[leaf] == int.MaxValue)
                {
                    drop[leaf] = day;
                }
            }

            shown[day] = [.. visible];
        }

        return new PlantRun(curve, shown, drop);

        double Rate(int day) => (spec.FieldShare * vigour * Warmth.GrowthADay(celsius[day])) + luck[day] + own[day];
    }
}
