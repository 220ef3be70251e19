using System.Globalization;
using LeafScan.Leaves.Views;
using LeafScan.Walks.Foliage;

namespace LeafScan.Cli.Screen;

/// <summary>What has changed on a whole plant between two lined-up photos, for people and as a document.</summary>
internal static class ViewTable
{
    /// <summary>Writes it; nothing where it was not asked for.</summary>
    public static void Write(TextWriter writer, LinedUpViews? views)
    {
        if (views is null)
        {
            return;
        }

        if (views.Change is not { } change)
        {
            writer.WriteLine(Words.OneLine($"{views.Reason} No picture was written. {views.Advice}"));
            return;
        }

        writer.WriteLine(Words.OneLine($"Lined up: {views.EarlierFile} of {Words.Day(views.EarlierDay!.Value)} and {views.LaterFile} of {Words.Day(views.LaterDay!.Value)}, by {change.AgreeingPlaces} places. Change in points, + is more; left and right are those of the photos."));
        TextTable table = new("part", ">discoloured", ">gaps", ">greenness", "it is");
        foreach (SectorChange sector in change.Sectors)
        {
            table.Add($"{sector.Side} {sector.Height}", Points(sector.Discoloured), Points(sector.Thinning), Green(sector.Greenness), sector.Word);
        }

        table.Add("all", Points(change.Discoloured), Points(change.Thinning), Green(change.Greenness), string.Empty);
        table.WriteTo(writer);
        writer.WriteLine($"\"Same\": within {Words.Percent(PlantChange.Noise)} points, by which two photos of an unchanged plant differ.");
        writer.WriteLine(Words.OneLine($"Both photos and where it changed: {views.Picture}"));
    }

    /// <summary>The document; null where it was not asked for.</summary>
    public static object? Document(LinedUpViews? views) => views is null ? null : new
    {
        linedUp = views.Change is not null,
        reason = views.Reason,
        advice = views.Advice,
        earlier = views.EarlierFile,
        earlierDay = views.EarlierDay is { } day ? Words.Day(day) : null,
        later = views.LaterFile,
        laterDay = views.LaterDay is { } then ? Words.Day(then) : null,
        agreeingPlaces = views.Change?.AgreeingPlaces,
        discoloured = FigureDocument.Round(views.Change?.Discoloured),
        thinning = FigureDocument.Round(views.Change?.Thinning),
        greenness = FigureDocument.Round(views.Change?.Greenness),
        sectors = views.Change?.Sectors.Select(sector => new
        {
            side = sector.Side,
            height = sector.Height,
            discoloured = FigureDocument.Round(sector.Discoloured),
            thinning = FigureDocument.Round(sector.Thinning),
            greenness = FigureDocument.Round(sector.Greenness),
            change = sector.Word,
        }),
    };

    private static string Points(double? change) => change is { } by ? (by * 100).ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture) : "-";

    private static string Green(double? change) => change is { } by ? by.ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture) : "-";
}
