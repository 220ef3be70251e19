using LeafScan.Records;

namespace LeafScan.Training.Seasons;

/// <summary>
/// One invented season of a few like plants with twospotted mites, drawn from a seed. What no source is named for is our own guess at
/// what happens on ornamentals; it is meant to be harder than a quiet garden, not to be a forecast.
/// </summary>
public sealed record SeasonSpec
{
    /// <summary>Seed of everything that is drawn while the season runs.</summary>
    public required int Seed { get; init; }

    /// <summary>First day of the run, 60 days before the care.</summary>
    public required DateOnly FirstDay { get; init; }

    /// <summary>Number of the day of the first care, counted from <see cref="FirstDay"/>.</summary>
    public const int CareDay = 60;

    /// <summary>Days run.</summary>
    public const int Days = CareDay + 62;

    /// <summary>Days between visits, about.</summary>
    public required int VisitGap { get; init; }

    /// <summary>Mean temperature of the hottest week in °C.</summary>
    public required double PeakCelsius { get; init; }

    /// <summary>Growth in the field as a share of that in the laboratory.</summary>
    public required double FieldShare { get; init; }

    /// <summary>Mites a leaf that the first plant would reach on the day of the care if nothing stopped them.</summary>
    public required double MitesAtCare { get; init; }

    /// <summary>Mites a leaf at which growth stops.</summary>
    public required double MitesMost { get; init; }

    /// <summary>Damage a mite makes a day, share of a leaf.</summary>
    public required double DamagePerMiteDay { get; init; }

    /// <summary>Number of the day on which the colonies of the place crash; may lie outside the run.</summary>
    public required int CrashDay { get; init; }

    /// <summary>Share of the mites lost each day of the crash, as a rate.</summary>
    public required double CrashRate { get; init; }

    /// <summary>Mites that come in from outside once the care has begun, a leaf and day.</summary>
    public required double Arrivals { get; init; }

    /// <summary>Days of care, counted from the first care, with the share of mites each takes.</summary>
    public required IReadOnlyList<int> CareDays { get; init; }

    /// <summary>What is done.</summary>
    public required CareKind CareKind { get; init; }

    /// <summary>Share of the mites that each care entry takes, 0..1.</summary>
    public required double CareTakes { get; init; }

    /// <summary>Days after each entry in which growth is lowered by the same share; 0 for water.</summary>
    public required int CareLasts { get; init; }

    /// <summary>Live mites on the sheet for each mite a leaf.</summary>
    public required double TapShare { get; init; }

    /// <summary>Whether daily temperatures are on record.</summary>
    public required bool HasWeather { get; init; }

    /// <summary>How much plants differ in growth and in the day of the crash, times what is usual. Default 1.</summary>
    public double PlantVariety { get; init; } = 1;
}
