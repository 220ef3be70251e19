using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Notes.Exports;
using LeafScan.Trends.Blocks;
using LeafScan.Walks;

namespace LeafScan.Cli.Blocks;

/// <summary>A scored block for people, as a table and as a document.</summary>
internal static class BlockScreen
{
    private const int WorstShown = 10;

    /// <summary>The block in sentences, its worst plants, the map.</summary>
    public static void Write(TextWriter writer, string block, BlockScore score)
    {
        BlockFigures figures = score.Figures;
        if (figures.PlantCount == 0)
        {
            writer.WriteLine($"Block {Words.OneLine(block)}: no plant of it could be measured.");
            return;
        }

        writer.WriteLine(
            $"Block {Words.OneLine(block)}: {Words.Count(figures.PlantCount, "plant")}, {Words.Count(figures.LeafCount, "leaf", "leaves")}.");
        writer.WriteLine(
            $"Affected: {figures.AffectedCount} of {Words.Count(figures.PlantCount, "plant")}, {Words.Percent(figures.Incidence!.Value)} % ({FigureDocument.Range(figures.IncidenceInterval)}); a plant is affected when a leaf has 5 % damage or more.");
        writer.WriteLine($"Damage: {Words.Percent(figures.Damage!.Value)} % of the leaf on the mean of the plants ({FigureDocument.Range(figures.DamageInterval)}).");
        writer.WriteLine();
        TextTable table = new("start here", ">damage %", "interval", ">affected leaves", ">leaves");
        foreach (BlockPlant plant in figures.WorstFirst.Take(WorstShown))
        {
            table.Add(
                plant.Code, Words.Percent(plant.Figures.Damage!.Value), FigureDocument.Range(plant.Figures.DamageInterval),
                Words.Number(plant.Figures.AffectedCount), Words.Number(plant.Figures.LeafCount));
        }

        table.WriteTo(writer);
        writer.WriteLine();
        BlockMapText.Write(writer, score);
    }

    /// <summary>One row a plant, for a spreadsheet.</summary>
    public static CsvText Csv(string place, string block, BlockScore score)
    {
        CsvText csv = new(
            "place", "block", "row", "position", "plant", "photos", "leaves", "leaves_left_out", "damage", "damage_low", "damage_high",
            "stippled", "yellowed", "browned", "chewed", "unassessed", "leaves_affected", "photos_refused");
        foreach (BlockPlant plant in score.Plants)
        {
            Leaves.Reading.LeafShares? shares = plant.Figures.Shares;
            csv.Add(
                place, block, plant.Row, plant.Position, plant.Code, plant.Figures.PhotoCount, plant.Figures.LeafCount, plant.Figures.LeafCountLeftOut,
                FigureDocument.Round(plant.Figures.Damage), FigureDocument.Round(plant.Figures.DamageInterval?.Low), FigureDocument.Round(plant.Figures.DamageInterval?.High),
                FigureDocument.Round(shares?.Stippled), FigureDocument.Round(shares?.Yellowed), FigureDocument.Round(shares?.Browned),
                FigureDocument.Round(shares?.Chewed), FigureDocument.Round(shares?.Unassessed), plant.Figures.AffectedCount,
                score.RefusedByPlant.GetValueOrDefault(plant.Code));
        }

        return csv;
    }

    /// <summary>The document (schema leafscan.score/1).</summary>
    public static object Document(string tool, string place, string block, WalkOutcome outcome, BlockScore score) => new
    {
        schema = "leafscan.score/1",
        tool,
        place,
        block,
        stopped = outcome.Stopped,
        photos = new { added = outcome.Added.Count, alreadyHere = outcome.AlreadyHere.Count, refused = outcome.Refused.Count, withoutPlant = score.PhotosWithoutPlant },
        plantCount = score.Figures.PlantCount,
        plantsLeftOut = score.Figures.PlantCountLeftOut,
        leafCount = score.Figures.LeafCount,
        affectedPlants = score.Figures.AffectedCount,
        incidence = FigureDocument.Round(score.Figures.Incidence),
        incidenceLow = FigureDocument.Round(score.Figures.IncidenceInterval?.Low),
        incidenceHigh = FigureDocument.Round(score.Figures.IncidenceInterval?.High),
        damage = FigureDocument.Round(score.Figures.Damage),
        damageLow = FigureDocument.Round(score.Figures.DamageInterval?.Low),
        damageHigh = FigureDocument.Round(score.Figures.DamageInterval?.High),
        worstFirst = score.Figures.WorstFirst.Select(plant => plant.Code),
        plants = score.Plants.Select(plant => new
        {
            code = plant.Code,
            row = plant.Row,
            position = plant.Position,
            affected = plant.IsAffected,
            figures = FigureDocument.Of(plant.Figures),
            photosRefused = score.RefusedByPlant.GetValueOrDefault(plant.Code),
        }),
        refused = outcome.Refused.OrderBy(refusal => refusal.FileName, StringComparer.Ordinal)
            .Select(refusal => new { file = refusal.FileName, refusal.Reason, refusal.Advice }),
    };

    /// <summary>Damage as it stands in a cell of the map: whole percents, tenths below ten.</summary>
    public static string Cell(BlockPlant plant) => plant.Figures.Damage is not { } damage
        ? "?"
        : (damage * 100).ToString(damage < 0.0995 ? "0.0" : "0", CultureInfo.InvariantCulture);
}
