using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends.Statistics;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Cli.Screen;

/// <summary>The verdict as a document.</summary>
internal static class VerdictDocument
{
    /// <summary>Of one plant.</summary>
    public static object Of(Plant plant, Verdict verdict) => new
    {
        schema = "leafscan.verdict/1",
        tool = ToolVersion.Current,
        code = plant.Code,
        place = plant.PlaceName,
        name = plant.Name,
        species = plant.Species,
        verdict = VerdictNames.InDocuments(verdict.Word),
        because = verdict.Because,
        next = verdict.Next,
        careSince = verdict.CareSince is { } day ? Words.Day(day) : null,
        rivals = Rivals(verdict),
        trend = TrendDocument.Of(verdict.Trend),
        figures = Figures(verdict.Figures),
    };

    /// <summary>Of several plants.</summary>
    public static object Of(IReadOnlyList<(Plant Plant, Verdict Verdict)> judged) => new
    {
        schema = "leafscan.verdicts/1",
        tool = ToolVersion.Current,
        plants = judged.Select(pair => new
        {
            code = pair.Plant.Code,
            place = pair.Plant.PlaceName,
            name = pair.Plant.Name,
            species = pair.Plant.Species,
            verdict = VerdictNames.InDocuments(pair.Verdict.Word),
            because = pair.Verdict.Because,
            next = pair.Verdict.Next,
            careSince = pair.Verdict.CareSince is { } day ? Words.Day(day) : null,
            rivals = Rivals(pair.Verdict),
            trend = TrendDocument.Of(pair.Verdict.Trend),
            figures = Figures(pair.Verdict.Figures),
        }),
    };

    private static IEnumerable<object> Rivals(Verdict verdict)
        => verdict.Rivals.Select(rival => new { kind = VerdictNames.InDocuments(rival.Kind), sentence = rival.Sentence });

    private static object Figures(VerdictFigures figures) => new
    {
        sameLeaves = figures.SameLeafCount,
        newDamageAWeekBefore = Range(figures.NewDamageBefore, figures.NewDamageBeforeInterval),
        newDamageAWeekSince = Range(figures.NewDamageSince, figures.NewDamageSinceInterval),
        newGrowthBefore = FigureDocument.Round(figures.NewGrowthBefore),
        newGrowthSince = FigureDocument.Round(figures.NewGrowthSince),
        mitesATapBefore = FigureDocument.Round(figures.MitesBefore),
        mitesATapSince = FigureDocument.Round(figures.MitesSince),
        untreatedPlants = figures.CheckPlantCount,
        untreatedMitesATapBefore = FigureDocument.Round(figures.CheckMitesBefore),
        untreatedMitesATapSince = FigureDocument.Round(figures.CheckMitesSince),
        untreatedNewDamageAWeekBefore = FigureDocument.Round(figures.CheckNewDamageBefore),
        untreatedNewDamageAWeekSince = FigureDocument.Round(figures.CheckNewDamageSince),
        mitesTaken = Range(figures.Efficacy, figures.EfficacyInterval),
        mitesTakenBySunShepard = FigureDocument.Round(figures.EfficacyBySunShepard),
        mitesTakenByAbbott = FigureDocument.Round(figures.EfficacyByAbbott),
        mitesTakenBecause = figures.EfficacyBecause,
    };

    private static object? Range(double? value, Interval? interval) => value is null ? null : new
    {
        value = FigureDocument.Round(value),
        low = FigureDocument.Round(interval?.Low),
        high = FigureDocument.Round(interval?.High),
        level = interval?.Level,
    };
}
