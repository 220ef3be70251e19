using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Seasons;

/// <summary>Daily mean temperatures of a season: a hump about the end of July, with warm and cool spells.</summary>
internal static class SeasonWeather
{
    private const int HottestDayOfYear = 206;

    public static double[] Means(SeasonSpec spec, Random random)
    {
        double[] means = new double[SeasonSpec.Days];
        double spell = 0;
        for (int day = 0; day < means.Length; day++)
        {
            // The spells last about five days (each day keeps 0.8 of the last) and have a spread of 2.5 °C.
            spell = (0.8 * spell) + (1.5 * random.Normal());
            double fromPeak = (spec.FirstDay.AddDays(day).DayOfYear - HottestDayOfYear) / 75.0;
            means[day] = spec.PeakCelsius - (6 * fromPeak * fromPeak) + spell;
        }

        return means;
    }
}
