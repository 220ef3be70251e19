using System.Globalization;
using LeafScan.Cli.Commands;
using LeafScan.Cli.Taps;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Progress;
using LeafScan.Trends.Statistics;

namespace LeafScan.Cli.Screen;

/// <summary>Series for people.</summary>
internal static class SeriesScreen
{
    private const string NeverHeals = "Damage does not heal: a mean falls only by new leaves, leaf drop or other leaves in the photos.";

    // What only twigs and whole plants have stands behind the shares.
    private const int FoliageAt = 8;

    /// <summary>One plant.</summary>
    public static void Write(TextWriter writer, PlantSeriesView view)
    {
        writer.WriteLine(Words.OneLine($"{view.Plant.Code} in {view.Plant.PlaceName}{(view.Plant.Species is { } species ? $", {species}" : string.Empty)}. Means over {view.Kinds.Things}, in %."));
        bool hasCrown = view.Points.Any(point => point.Leaves.Crown is not null), hasNeedles = view.Points.Any(point => point.Leaves.Needles is not null);
        TextTable table = new(
        [
            "date", ">" + view.Kinds.Things, ">damage", "90 % range", ">stippled", ">yellowed", ">browned", ">chewed",
            .. hasCrown ? [">gaps", "90 % range", "worst side"] : Array.Empty<string>(), .. hasNeedles ? [">specks per cm"] : Array.Empty<string>(),
            view.Kinds.Things + " with 5 % or more", "care and taps",
        ]);
        Dictionary<DateOnly, TapDay> miteDays = view.TapDays.ToDictionary(day => day.Day);
        var lines = view.Points.Select(point => (Day: point.WalkedOn, Rank: 0, Cells: Cells(point), Leaves: (LeafFigures?)point.Leaves))
            .Concat(view.Taps.Select(tap => (tap.Tap.Day, Rank: 1, Cells: Cells(tap, IsLastOfDay(view.Taps, tap) ? miteDays[tap.Tap.Day] : null), Leaves: (LeafFigures?)null)))
            .Concat(view.Care.Select(entry => (Day: entry.DoneOn, Rank: 2, Cells: Cells(entry), Leaves: (LeafFigures?)null)));
        foreach ((DateOnly _, int _, string[] cells, LeafFigures? point) in lines.OrderBy(line => line.Day).ThenBy(line => line.Rank))
        {
            table.Add([.. cells[..FoliageAt], .. FoliageCells(point, hasCrown, hasNeedles), .. cells[FoliageAt..]]);
        }

        table.WriteTo(writer);
        if (hasCrown)
        {
            writer.WriteLine("Gaps are of the crown; left and right are those of the photo.");
        }

        if (hasNeedles)
        {
            writer.WriteLine("Specks per cm of needle are at least so many: touching ones count once.");
        }

        WriteAge(writer, "New growth, in %:", view.NewGrowth);
        WriteAge(writer, "Old leaves, in %:", view.Old);
        WriteTagged(writer, view.Tagged);
        if (view.Points.Count > 1)
        {
            writer.WriteLine(Words.OneLine(view.Trend?.Words ?? DamageTrend.TooFew));
            writer.WriteLine(NeverHeals);
        }
    }

    /// <summary>A block, a place or a client.</summary>
    public static void Write(TextWriter writer, GroupSeriesView view)
    {
        writer.WriteLine(Words.OneLine($"{view.Group.Words}: {Words.Count(view.PlantCount, "plant")}. Means over plants, in %."));
        if (view.Kinds.Caution is { } caution)
        {
            writer.WriteLine(caution);
        }

        TextTable table = new("date", ">plants", ">" + view.Kinds.Things, ">damage", "90 % range", view.Kinds.Things + " with 5 % or more", ">old", "range", ">new growth", "range", ">mites a tap", ">mite-days");
        Dictionary<DateOnly, TapDay> taps = view.TapDays.ToDictionary(day => day.Day);
        Dictionary<DateOnly, GroupPoint> points = view.Points.ToDictionary(point => point.Day);
        foreach (DateOnly day in points.Keys.Union(taps.Keys).Order())
        {
            GroupPoint? point = points.GetValueOrDefault(day);
            TapDay? tap = taps.GetValueOrDefault(day);
            table.Add(
                Words.Day(day),
                point is null ? string.Empty : Words.Number(point.All.PlantCount),
                point is null ? string.Empty : Words.Number(point.All.LeafCount),
                Damage(point?.All),
                FigureDocument.Range(point?.All.DamageInterval),
                Affected(point?.All.AffectedCount ?? 0, point?.All.LeafCount ?? 0, point?.All.AffectedInterval),
                Damage(point?.Old),
                FigureDocument.Range(point?.Old?.DamageInterval),
                Damage(point?.NewGrowth),
                FigureDocument.Range(point?.NewGrowth?.DamageInterval),
                tap is null ? string.Empty : tap.MitesATap.ToString("0.0", CultureInfo.InvariantCulture),
                tap is null ? string.Empty : tap.MiteDays.ToString("0", CultureInfo.InvariantCulture));
        }

        table.WriteTo(writer);
        writer.WriteLine("Each plant is one value; days on which other plants were photographed are no trend. " + NeverHeals);
    }

    private static void WriteAge(TextWriter writer, string title, IReadOnlyList<SeriesPoint> points)
    {
        if (points.Count == 0)
        {
            return;
        }

        writer.WriteLine(title);
        TextTable table = new("date", ">leaves", ">damage", "90 % range", "leaves with 5 % or more");
        foreach (SeriesPoint point in points)
        {
            table.Add(
                Words.Day(point.WalkedOn), Words.Number(point.Leaves.LeafCount), point.Leaves.Damage is { } damage ? Words.Percent(damage) : "-", FigureDocument.Range(point.Leaves.DamageInterval),
                Affected(point.Leaves.AffectedCount, point.Leaves.LeafCount, point.Leaves.AffectedInterval));
        }

        table.WriteTo(writer);
    }

    private static void WriteTagged(TextWriter writer, IReadOnlyList<TaggedLeaf> tagged)
    {
        if (tagged.Count == 0)
        {
            return;
        }

        writer.WriteLine("Tagged leaves, damage in %:");
        TextTable table = new("leaf", ">walks", "first", ">damage", "last", ">damage", ">points a week");
        foreach (TaggedLeaf leaf in tagged)
        {
            table.Add(
                leaf.Tag,
                Words.Number(leaf.Readings.Select(reading => reading.WalkedOn).Distinct().Count()),
                Words.Day(leaf.Readings[0].WalkedOn),
                Words.Percent(leaf.Readings[0].Damage),
                Words.Day(leaf.Readings[^1].WalkedOn),
                Words.Percent(leaf.Readings[^1].Damage),
                leaf.GainAWeek is { } gain ? (Math.Round(gain * 100, 1) + 0.0).ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture) : "-");
        }

        table.WriteTo(writer);
    }

    private static IEnumerable<string> FoliageCells(LeafFigures? point, bool hasCrown, bool hasNeedles)
    {
        string empty = point is null ? string.Empty : "-";
        string[] crown = !hasCrown ? []
            : point?.Crown is { } known ? [Words.Percent(known.Thinning), FigureDocument.Range(known.ThinningInterval), known.WorstSideWords]
            : [empty, string.Empty, empty];
        string[] needles = !hasNeedles ? [] : [point?.Needles is { } specks ? specks.SpecksPerCm.ToString("0.0", CultureInfo.InvariantCulture) : empty];
        return crown.Concat(needles);
    }

    private static string[] Cells(SeriesPoint point)
    {
        LeafFigures leaves = point.Leaves;
        return
        [
            Words.Day(point.WalkedOn),
            Words.Number(leaves.LeafCount),
            leaves.Damage is { } damage ? Words.Percent(damage) : "-",
            FigureDocument.Range(leaves.DamageInterval),
            leaves.Shares is { } shares ? Words.Percent(shares.Stippled) : "-",
            leaves.Shares is { } yellow ? Words.Percent(yellow.Yellowed) : "-",
            leaves.Shares is { } brown ? Words.Percent(brown.Browned) : "-",
            leaves.Shares is { } chewed ? Words.Percent(chewed.Chewed) : "-",
            Affected(leaves.AffectedCount, leaves.LeafCount, leaves.AffectedInterval),
            string.Empty,
        ];
    }

    private static string[] Cells(CareEntry entry)
    {
        string words = entry.What.ToString().ToLowerInvariant() + (entry.Note is { } note ? $": {note}" : string.Empty);
        return [Words.Day(entry.DoneOn), "", "", "", "", "", "", "", "", words];
    }

    private static string[] Cells(TapOnRecord tap, TapDay? sum)
    {
        string struck = TapNotes.Struck(tap);
        string hunters = tap.Tap.Predators is { } predators ? $", {Words.Count(predators, "predator")}" : string.Empty;
        string days = sum is { MiteDays: > 0 } ? string.Create(CultureInfo.InvariantCulture, $", {sum.MiteDays:0} mite-days so far") : string.Empty;
        string note = tap.Tap.Note is { } words ? $": {words}" : string.Empty;
        return [Words.Day(tap.Tap.Day), "", "", "", "", "", "", "", "", $"tap, {Words.Count(tap.LiveMites, "mite")}{struck}{hunters}{days}{note}"];
    }

    private static bool IsLastOfDay(IReadOnlyList<TapOnRecord> taps, TapOnRecord tap) => taps.Last(other => other.Tap.Day == tap.Tap.Day).Id == tap.Id;

    private static string Damage(GroupFigures? figures) => figures is null ? string.Empty : figures.Damage is { } damage ? Words.Percent(damage) : "-";

    private static string Affected(int affected, int count, Interval? range) => range is { } known
        ? string.Create(CultureInfo.InvariantCulture, $"{affected} of {count} ({known.Low * 100:0} to {known.High * 100:0} % of all)")
        : string.Empty;
}
