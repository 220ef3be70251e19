using System.Globalization;
using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Bench.Foliage;

/// <summary>Figures over many rendered twigs or plants, as lines of a table.</summary>
internal sealed class FoliageTotals(IReadOnlyList<FoliageScore> scores)
{
    private readonly FoliageScore[] _read = [.. scores.Where(score => score.Reading is not null)];

    /// <summary>Name and value of each figure.</summary>
    public IEnumerable<(string Name, string Value)> Lines()
    {
        yield return ("photos", Count(scores.Count));
        yield return ("refused", Count(scores.Count - _read.Length));
        if (_read.Length < 2)
        {
            yield break;
        }

        Concordance damage = Pairs(s => s.Reading!.Damage, s => s.Truth.Discoloured, _read);
        yield return ("discoloured area: CCC", Number(damage.Ccc));
        yield return ("discoloured area: mean error", Number(_read.Average(s => s.Reading!.Damage - s.Truth.Discoloured)));
        yield return ("discoloured area: mean absolute error", Number(_read.Average(s => Math.Abs(s.Reading!.Damage - s.Truth.Discoloured))));
        yield return ("discoloured area: truth inside the 90 % interval", Share(_read, s => s.Truth.Discoloured >= s.Reading!.DamageLow - 1e-9 && s.Truth.Discoloured <= s.Reading!.DamageHigh + 1e-9));
        yield return ("discoloured area: mean width of the interval", Number(_read.Average(s => s.Reading!.DamageHigh - s.Reading!.DamageLow)));
        yield return ("foliage: overlap with the truth, median", Number(Rank(0.5)));
        yield return ("foliage: overlap with the truth, 10th percentile", Number(Rank(0.1)));
        FoliageScore[] needles = [.. _read.Where(s => s.SpecksPerCmOfNeedle is not null && s.Truth.SpecksPerCmOfNeedle is not null)];
        if (_read.Any(s => s.Truth.PixelsPerMm > 0))
        {
            yield return ("needles seen one by one", $"{Count(_read.Count(s => s.SeesNeedles && s.Truth.SpecksPerCmOfNeedle is not null))} of {Count(_read.Count(s => s.Truth.SpecksPerCmOfNeedle is not null))} with needles, {Count(_read.Count(s => s.SeesNeedles && s.Truth.SpecksPerCmOfNeedle is null))} of {Count(_read.Count(s => s.Truth.SpecksPerCmOfNeedle is null))} with awls or scales");
        }

        if (needles.Length > 1)
        {
            yield return ("specks per cm of needle: photos", Count(needles.Length));
            yield return ("specks per cm of needle: mean, measured and true", $"{Number(needles.Average(s => s.SpecksPerCmOfNeedle!.Value))} and {Number(needles.Average(s => s.Truth.SpecksPerCmOfNeedle!.Value))}");
            yield return ("specks per cm of needle: CCC", Number(Pairs(s => s.SpecksPerCmOfNeedle!.Value, s => s.Truth.SpecksPerCmOfNeedle!.Value, needles).Ccc));
            yield return ("specks per cm of needle: mean absolute error", Number(needles.Average(s => Math.Abs(s.SpecksPerCmOfNeedle!.Value - s.Truth.SpecksPerCmOfNeedle!.Value))));
        }

        FoliageScore[] crowns = [.. _read.Where(s => s.Reading!.Crown is not null)];
        if (crowns.Length > 1)
        {
            yield return ("thinning: CCC", Number(Pairs(s => s.Reading!.Crown!.Thinning, s => s.Truth.Thinned, crowns).Ccc));
            yield return ("thinning: mean absolute error", Number(crowns.Average(s => Math.Abs(s.Reading!.Crown!.Thinning - s.Truth.Thinned))));
            yield return ("thinning: truth inside the 90 % interval", Share(crowns, s => s.Truth.Thinned >= s.Reading!.Crown!.ThinningLow - 1e-9 && s.Truth.Thinned <= s.Reading!.Crown!.ThinningHigh + 1e-9));
            yield return ("worst side: right where one differs", Share([.. crowns.Where(s => s.Truth.WorseSide != "none")], s => s.Reading!.Crown!.WorstSide == s.Truth.WorseSide));
            yield return ("worst side: none said where none differs", Share([.. crowns.Where(s => s.Truth.WorseSide == "none")], s => s.Reading!.Crown!.WorstSide == "none"));
        }

        FoliageScore[] season = [.. _read.Where(s => s.Truth.IsHarmless && (s.Truth.FallColour > 0.02 || s.Truth.NewGrowth > 0.02))];
        yield return ("fall colour or new growth and nothing else: called mites", $"{Count(season.Count(s => s.SaysMites))} of {Count(season.Length)}");
        FoliageScore[] sound = [.. _read.Where(s => s.Truth.IsHarmless)];
        yield return ("nothing wrong: called mites", $"{Count(sound.Count(s => s.SaysMites))} of {Count(sound.Length)}");
        foreach (IGrouping<string, FoliageScore> cause in _read.Where(s => s.Truth.Cause.Length > 0).GroupBy(s => s.Truth.Cause).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            string said = string.Join(", ", cause.GroupBy(s => s.Reading!.Causes[0].Cause).OrderByDescending(g => g.Count()).Select(g => $"{g.Key} {Count(g.Count())}"));
            yield return ($"painted {cause.Key}: first cause said", said);
        }

        yield return ("seconds a photo, median", Number(scores.Select(s => s.Seconds).Order().ElementAt(scores.Count / 2)));
    }

    private double Rank(double rank) => _read.Select(s => s.OutlineIou).Order().ElementAt((int)(rank * _read.Length));

    private static Concordance Pairs(Func<FoliageScore, double> measured, Func<FoliageScore, double> truth, FoliageScore[] from)
        => Concordance.Of([.. from.Select(measured)], [.. from.Select(truth)]);

    private static string Share(FoliageScore[] among, Func<FoliageScore, bool> which)
        => among.Length == 0 ? "no such photo" : string.Create(CultureInfo.InvariantCulture, $"{among.Count(which) / (double)among.Length:0.000} ({among.Count(which)} of {among.Length})");

    private static string Number(double value) => value.ToString("0.000", CultureInfo.InvariantCulture);

    private static string Count(int count) => count.ToString(CultureInfo.InvariantCulture);
}
