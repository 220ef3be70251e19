using System.Globalization;
using LeafScan.Training.Rendering.Support;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Training.Seasons;

/// <summary>How a season is looked at.</summary>
/// <param name="Leaves">Tagged leaves a plant.</param>
/// <param name="Visits">Visits, 2 to 8.</param>
/// <param name="HasChecks">Whether untreated plants are looked at too.</param>
/// <param name="HasTaps">Whether there are three taps a plant and visit.</param>
public sealed record Design(int Leaves, int Visits, bool HasChecks, bool HasTaps);

/// <summary>How the photos are taken.</summary>
/// <param name="Noise">Errors of single photos, times those of docs/accuracy.md. Default 1.</param>
/// <param name="IsTagged">Whether the same leaves are photographed each time; otherwise other leaves of the plant are picked. Default true.</param>
public sealed record PhotoHabit(double Noise = 1, bool IsTagged = true);

/// <summary>
/// Turns a season into what a person would have on record: readings with the errors of docs/accuracy.md, taps that undercount.
/// Drawn once for the whole season, so that a shorter record is part of the longer one.
/// </summary>
internal sealed class Observer
{
    private const int TapsAVisit = 3;

    private readonly Season _season;
    private readonly bool _isPerfect;
    private readonly PhotoHabit _habit;
    private readonly Dictionary<PlantRun, (HistoryVisit[] Visits, HistoryTap[][] Taps)> _seen = [];

    /// <summary>Looks at every visit of a season.</summary>
    /// <param name="season">The season.</param>
    /// <param name="isPerfect">Without any error: what the best of records would show.</param>
    /// <param name="habit">How the photos are taken; null for the defaults.</param>
    public Observer(Season season, bool isPerfect, PhotoHabit? habit = null)
    {
        (_season, _isPerfect, _habit) = (season, isPerfect, habit ?? new PhotoHabit());
        foreach ((PlantRun plant, int place) in ((PlantRun[])[season.Cared, season.Left, .. season.Checks]).Select((plant, place) => (plant, place)))
        {
            // The plant with care and the same without are photographed with the same errors.
            Random random = Chance.FromSeed(season.Spec.Seed ^ (7919 * Math.Max(1, place)));
            (double factor, double offset, int changes) = (random.Between(0.75, 1), 0, random.Hit(0.1) ? random.Next(1, 8) : -1);
            List<HistoryVisit> visits = [];
            List<HistoryTap[]> taps = [];
            for (int visit = 0; visit < season.VisitDays.Length; visit++)
            {
                if (visit == changes)
                {
                    // Another phone or another person from here on.
                    (factor, offset) = (random.Between(0.75, 1), 0.004 * random.Normal());
                }

                visits.Add(Photograph(plant, season.VisitDays[visit], factor, offset + (0.003 * random.Normal()), random));
                taps.Add(Tap(plant, season.VisitDays[visit], plant == season.Cared, random));
            }

            _seen[plant] = ([.. visits], [.. taps]);
        }
    }

    /// <summary>The record of the cared-for plant in a design.</summary>
    public PlantHistory Cared(Design design) => Record(_season.Cared, design, true);

    /// <summary>The record of the same plant without care and without check plants.</summary>
    public PlantHistory Untreated(Design design) => Record(_season.Left, design with { HasChecks = false }, false);

    private PlantHistory Record(PlantRun plant, Design design, bool isCaredFor)
    {
        int[] days = _season.Visits(design.Visits);
        int first = Array.IndexOf(_season.VisitDays, days[0]);
        SeasonSpec spec = _season.Spec;
        return new PlantHistory
        {
            Name = "plant",
            Calendar = MiteCalendar.Warm,
            Visits = [.. Enumerable.Range(first, days.Length).Select(i => Few(_seen[plant].Visits[i], design.Leaves, i))],
            Taps = design.HasTaps ? [.. Enumerable.Range(first, days.Length).SelectMany(i => _seen[plant].Taps[i])] : [],
            Care = isCaredFor ? [.. spec.CareDays.Where(day => SeasonSpec.CareDay + day <= days[^1]).Select(day => new HistoryCare(spec.FirstDay.AddDays(SeasonSpec.CareDay + day), spec.CareKind))] : [],
            CheckPlants = design.HasChecks ? [.. _season.Checks.Select(check => Record(check, design with { HasChecks = false }, false))] : [],
            Weather = spec.HasWeather
                ? [.. Enumerable.Range(0, days[^1] + 1).Select(day => new HistoryWeather(spec.FirstDay.AddDays(day), _season.Celsius[day] - 6, _season.Celsius[day] + 6))]
                : [],
        };
    }

    private HistoryVisit Few(HistoryVisit visit, int leaves, int number)
    {
        // Leaves differ by chance, so that any stretch of them is a sample.
        int first = _habit.IsTagged ? 0 : number * 7 % (Season.LeafCount - leaves + 1);
        return visit with
        {
            Leaves =
            [
                .. visit.Leaves.Where(leaf => int.Parse(leaf.Tag!, CultureInfo.InvariantCulture) is int tag && tag >= first && tag < first + leaves)
                    .Select(leaf => _habit.IsTagged ? leaf : leaf with { Tag = null }),
            ],
        };
    }

    private HistoryVisit Photograph(PlantRun plant, int day, double factor, double shift, Random random)
    {
        List<HistoryLeaf> leaves = [];
        for (int leaf = 0; leaf < Season.LeafCount; leaf++)
        {
            double error = _habit.Noise * (random.Hit(0.1) ? 0.02 : 0.0075) * random.Normal();
            if (plant.DropDay[leaf] > day)
            {
                leaves.Add(Leaf(plant.Shown(leaf, day), LeafAge.Old, leaf.ToString(CultureInfo.InvariantCulture)));
            }

            HistoryLeaf Leaf(double truth, LeafAge age, string? tag)
            {
                double read = _isPerfect ? truth : Math.Clamp((factor * truth) + shift + error, 0, 1);
                double half = _isPerfect ? 0 : 0.026 * _habit.Noise;
                return new HistoryLeaf(read, Math.Max(0, read - half), Math.Min(1, read + half), read, age, tag);
            }
        }

        return new HistoryVisit(_season.Spec.FirstDay.AddDays(day), leaves);
    }

    private HistoryTap[] Tap(PlantRun plant, int day, bool isCaredFor, Random random)
    {
        SeasonSpec spec = _season.Spec;
        int since = isCaredFor && spec.CareKind == Records.CareKind.Rinse
            ? spec.CareDays.Where(care => SeasonSpec.CareDay + care <= day).Select(care => day - SeasonSpec.CareDay - care).DefaultIfEmpty(99).Min()
            : 99;
        double mean = spec.TapShare * plant.Mites[day];
        double today = mean * Math.Exp(0.2 * random.Normal()) * (since == 0 ? 0.5 : 1);
        HistoryTap[] taps = new HistoryTap[TapsAVisit];
        for (int i = 0; i < taps.Length; i++)
        {
            int count = _isPerfect ? (int)Math.Round(1000 * mean) : Counts.NegativeBinomial(today, 2, random);
            taps[i] = new HistoryTap(spec.FirstDay.AddDays(day), count, 10, null, since >= 90 ? null : _isPerfect ? 48 : since == 0 ? 6 : since * 24);
        }

        return taps;
    }
}
