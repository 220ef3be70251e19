using LeafScan.Cli.Commands;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Progress;

namespace LeafScan.Cli.Screen;

/// <summary>Series as documents.</summary>
internal static class SeriesDocument
{
    /// <summary>One plant.</summary>
    public static object Of(PlantSeriesView view) => new
    {
        schema = "leafscan.series/1",
        tool = ToolVersion.Current,
        code = view.Plant.Code,
        place = view.Plant.PlaceName,
        name = view.Plant.Name,
        species = view.Plant.Species,
        kind = view.Kinds.Names.FirstOrDefault(),
        walks = Walks(view.Points),
        oldLeaves = Walks(view.Old),
        newGrowth = Walks(view.NewGrowth),
        trend = TrendDocument.Of(view.Trend),
        taggedLeaves = view.Tagged.Select(leaf => new
        {
            tag = leaf.Tag,
            gainAWeek = FigureDocument.Round(leaf.GainAWeek),
            readings = leaf.Readings.Select(reading => new
            {
                date = Words.Day(reading.WalkedOn),
                file = reading.FileName,
                damage = FigureDocument.Round(reading.Damage),
                damageLow = FigureDocument.Round(reading.DamageLow),
                damageHigh = FigureDocument.Round(reading.DamageHigh),
            }),
        }),
        care = view.Care.Select(entry => new { number = entry.Id, date = Words.Day(entry.DoneOn), what = entry.What.ToString().ToLowerInvariant(), note = entry.Note }),
        taps = view.Taps.Select(Tap),
        miteDays = Days(view.TapDays),
    };

    /// <summary>A block, a place or a client.</summary>
    public static object Of(GroupSeriesView view) => new
    {
        schema = "leafscan.group-series/1",
        tool = ToolVersion.Current,
        place = view.Group.Place,
        block = view.Group.Block,
        client = view.Group.Client,
        plants = view.PlantCount,
        kinds = view.Kinds.Names,
        walks = view.Points.Select(point => new
        {
            date = Words.Day(point.Day),
            figures = Figures(point.All),
            oldLeaves = point.Old is null ? null : Figures(point.Old),
            newGrowth = point.NewGrowth is null ? null : Figures(point.NewGrowth),
        }),
        miteDays = Days(view.TapDays),
    };

    private static object Figures(GroupFigures figures) => new
    {
        plants = figures.PlantCount,
        leaves = figures.LeafCount,
        leavesLeftOut = figures.LeafCountLeftOut,
        damage = FigureDocument.Round(figures.Damage),
        damageLow = FigureDocument.Round(figures.DamageInterval?.Low),
        damageHigh = FigureDocument.Round(figures.DamageInterval?.High),
        affectedLeaves = figures.AffectedCount,
        affectedShare = FigureDocument.Round(figures.AffectedShare),
        affectedLow = FigureDocument.Round(figures.AffectedInterval?.Low),
        affectedHigh = FigureDocument.Round(figures.AffectedInterval?.High),
    };

    private static IEnumerable<object> Walks(IEnumerable<SeriesPoint> points) => points.Select(point => new { date = Words.Day(point.WalkedOn), figures = FigureDocument.Of(point.Leaves) });

    private static IEnumerable<object> Days(IEnumerable<TapDay> days)
        => days.Select(day => new { date = Words.Day(day.Day), taps = day.TapCount, mitesATap = FigureDocument.Round(day.MitesATap), miteDays = FigureDocument.Round(day.MiteDays) });

    private static object Tap(TapOnRecord tap) => new
    {
        number = tap.Id,
        date = Words.Day(tap.Tap.Day),
        mites = tap.LiveMites,
        branches = tap.Tap.Branches,
        mitesABranch = FigureDocument.Round((double)tap.LiveMites / tap.BranchCount),
        strikes = tap.Tap.Strikes,
        predators = tap.Tap.Predators,
        hoursSinceRinse = tap.Tap.HoursSinceWet,
        note = tap.Tap.Note,
    };
}
