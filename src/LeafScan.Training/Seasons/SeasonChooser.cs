using LeafScan.Records;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Seasons;

/// <summary>How well the care of a season takes mites off.</summary>
public enum CareStrength
{
    /// <summary>Hardly any: undersides missed, or mites that the product does not hurt.</summary>
    None,

    /// <summary>Some.</summary>
    Some,

    /// <summary>Most.</summary>
    Most,
}

/// <summary>Draws seasons.</summary>
public static class SeasonChooser
{
    /// <summary>Draws one.</summary>
    /// <param name="seed">The same seed gives the same season.</param>
    /// <param name="strength">How well the care works.</param>
    public static SeasonSpec Choose(int seed, CareStrength strength)
    {
        Random random = Chance.FromSeed(seed ^ (((int)strength + 1) << 24));
        DateOnly care = new DateOnly(2025, 6, 12).AddDays(random.Next(70));
        DateOnly first = care.AddDays(-60);

        // Mites of hot summers collapse in August (UMass, Utah State); some colonies are eaten up or fall ill weeks before.
        DateOnly crash = random.Hit(0.08)
            ? new DateOnly(2025, 6, 20).AddDays(random.Next(42))
            : new DateOnly(2025, 8, 14).AddDays((int)Math.Round(9 * random.Normal()));
        (int[] days, CareKind kind, int lasts) = random.Next(4) switch
        {
            0 => (new[] { 0, 3, 6, 9, 12 }, CareKind.Rinse, 0),
            1 => (new[] { 0, 7, 14 }, CareKind.Rinse, 0),
            2 => (new[] { 0, 7 }, CareKind.Soap, 0),
            _ => (new[] { 0 }, CareKind.Miticide, 10),
        };
        return new SeasonSpec
        {
            Seed = random.Next(),
            FirstDay = first,
            VisitGap = random.Pick([7, 7, 10, 14]),
            PeakCelsius = random.Between(21, 27),
            FieldShare = random.Between(0.35, 0.85),
            MitesAtCare = random.LogNormal(12, 0.9),
            MitesMost = random.Between(40, 150),
            DamagePerMiteDay = random.LogNormal(0.0006, 0.3),
            CrashDay = crash.DayNumber - first.DayNumber,
            CrashRate = random.Between(0.12, 0.3),
            Arrivals = random.LogNormal(0.02, 1),
            CareDays = days,
            CareKind = kind,
            CareTakes = strength switch
            {
                CareStrength.None => random.Between(0, 0.06),
                CareStrength.Some => random.Between(0.1, 0.45),
                _ => random.Between(0.55, 0.95),
            },
            CareLasts = lasts,
            TapShare = random.LogNormal(0.4, 0.5),
            HasWeather = random.Hit(0.5),
        };
    }
}
