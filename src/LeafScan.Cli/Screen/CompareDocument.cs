using LeafScan.Cli.Commands;
using LeafScan.Leaves;
using LeafScan.Trends;
using LeafScan.Trends.Statistics;

namespace LeafScan.Cli.Screen;

/// <summary>Two months side by side as a document.</summary>
internal static class CompareDocument
{
    /// <summary>The document.</summary>
    public static object Of(CompareView view) => new
    {
        schema = "leafscan.compare/1",
        tool = ToolVersion.Current,
        from = view.From.ToString(),
        to = view.To.ToString(),
        kinds = view.Kinds.Names,
        plants = view.Plants.Select(pair => new
        {
            code = pair.Plant.Code,
            place = pair.Plant.PlaceName,
            earlier = FigureDocument.Of(pair.Months.Earlier),
            later = FigureDocument.Of(pair.Months.Later),
            difference = FigureDocument.Round(pair.Months.Difference),
            differenceLow = FigureDocument.Round(pair.Months.DifferenceInterval?.Low),
            differenceHigh = FigureDocument.Round(pair.Months.DifferenceInterval?.High),
            smallestChange = FigureDocument.Round(pair.Months.SmallestChange),
            moreLeaves = pair.Months.MoreLeaves,
            taggedLeaves = Tagged(pair.Months.Tagged),
            by = pair.Months.IsByTagged ? "taggedLeaves" : "allLeaves",
            change = CompareTable.NameOf(pair.Months.Word),
            because = pair.Months.Because,
            caution = pair.Months.Caution,
        }),
        views = ViewTable.Document(view.Views),
        together = view.Of is null ? null : Together(view.Of, view.Together),
    };

    private static object? Tagged(TaggedChange? tagged) => tagged is null ? null : new
    {
        leaves = tagged.LeafCount,
        difference = FigureDocument.Round(tagged.Difference),
        differenceLow = FigureDocument.Round(tagged.Interval.Low),
        differenceHigh = FigureDocument.Round(tagged.Interval.High),
        smallestChange = FigureDocument.Round(tagged.SmallestChange),
        moreLeaves = tagged.MoreLeaves,
    };

    private static object Together(string of, GroupComparison group) => new
    {
        of,
        plants = group.PlantCount,
        plantsLeftOut = group.PlantCountLeftOut,
        difference = FigureDocument.Round(group.Difference),
        differenceLow = FigureDocument.Round(group.Pairs?.Interval.Low),
        differenceHigh = FigureDocument.Round(group.Pairs?.Interval.High),
        signedRankP = FigureDocument.Round(group.SignedRank?.PTwoSided),
        smallestChange = FigureDocument.Round(group.SmallestChange),
        morePlants = group.MorePlantsToSettle,
        taggedLeaves = Pairs(group.TaggedPairs),
    };

    private static object? Pairs(PairedDifference? pairs) => pairs is null ? null : new
    {
        plants = pairs.Count,
        difference = FigureDocument.Round(pairs.Difference),
        differenceLow = FigureDocument.Round(pairs.Interval.Low),
        differenceHigh = FigureDocument.Round(pairs.Interval.High),
    };
}
