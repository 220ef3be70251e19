using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Seasons;

/// <summary>A season that has been run: the plant with its care, the same plant without, and untreated plants beside it.</summary>
internal sealed class Season
{
    /// <summary>Leaves run a plant; the first of them are the tagged ones.</summary>
    public const int LeafCount = 60;

    /// <summary>Untreated plants beside it.</summary>
    public const int CheckCount = 2;

    private Season(SeasonSpec spec, double[] celsius, PlantRun cared, PlantRun left, PlantRun[] checks)
        => (Spec, Celsius, Cared, Left, Checks) = (spec, celsius, cared, left, checks);

    public SeasonSpec Spec { get; }

    public double[] Celsius { get; }

    /// <summary>With the care.</summary>
    public PlantRun Cared { get; }

    /// <summary>The same plant, same luck, without the care.</summary>
    public PlantRun Left { get; }

    public PlantRun[] Checks { get; }

    /// <summary>Days of the eight visits, counted from the first day: four before the care, four since.</summary>
    public int[] VisitDays { get; private init; } = [];

    public static Season Run(SeasonSpec spec)
    {
        Random random = Chance.FromSeed(spec.Seed);
        double[] celsius = SeasonWeather.Means(spec, random);
        double[] luck = [.. Enumerable.Range(0, SeasonSpec.Days).Select(_ => 0.05 * random.Normal())];
        int plant = random.Next();
        int[] checks = [.. Enumerable.Range(0, CheckCount).Select(_ => random.Next())];
        int first = SeasonSpec.CareDay - 1 - random.Next(3);
        int[] days =
        [
            .. Enumerable.Range(0, 4).Select(i => first - ((3 - i) * spec.VisitGap) + (i == 3 ? 0 : random.Next(-1, 2))),
            .. Enumerable.Range(1, 4).Select(i => SeasonSpec.CareDay + (i * spec.VisitGap) + random.Next(0, 2)),
        ];
        return new Season(
            spec, celsius, PlantRun.Of(spec, celsius, luck, plant, true, LeafCount), PlantRun.Of(spec, celsius, luck, plant, false, LeafCount),
            [.. checks.Select(seed => PlantRun.Of(spec, celsius, luck, seed, false, LeafCount))])
        {
            VisitDays = days,
        };
    }

    /// <summary>The visits of a shorter record: as many before the care as since, one more before when odd.</summary>
    public int[] Visits(int count)
    {
        int before = (count + 1) / 2;
        return VisitDays[(4 - before)..(4 + count - before)];
    }
}
