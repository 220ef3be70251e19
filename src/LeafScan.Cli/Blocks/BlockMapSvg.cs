using System.Globalization;
using System.Net;
using System.Text;
using LeafScan.Trends.Blocks;

namespace LeafScan.Cli.Blocks;

/// <summary>
/// The map of a block as a picture: a cell a plant, its damage written in it. The shade only repeats the number: it goes from
/// light to dark, so that a grey print keeps its order. An affected plant has a thick frame, one without a reading a dashed one.
/// </summary>
internal static class BlockMapSvg
{
    private const int CellWidth = 58;
    private const int CellHeight = 40;
    private const int Left = 74;
    private const int Top = 92;
    private const int LooseAcross = 10;

    // Steps of our own choice; each clearly darker than the one before (CIE L* 97, 89, 78, 64, 47, 28).
    private static readonly (double From, string Fill, bool Dark)[] Shades =
    [
        (0, "#fcf7ea", false), (0.01, "#f7debb", false), (0.05, "#efb980", false), (0.10, "#d98f4e", false), (0.20, "#a8602c", true), (0.40, "#663814", true),
    ];

    /// <summary>Draws the map.</summary>
    /// <param name="block">Name of the block.</param>
    /// <param name="days">Days of the walk, in words.</param>
    /// <param name="score">The block.</param>
    public static string Draw(string block, string days, BlockScore score)
    {
        List<BlockPlant> placed = [.. score.Plants.Where(plant => plant is { Row: not null, Position: not null })];
        List<BlockPlant> loose = [.. score.Plants.Except(placed)];
        int[] rows = [.. placed.Select(plant => plant.Row!.Value).Distinct().Order()];
        int[] positions = [.. placed.Select(plant => plant.Position!.Value).Distinct().Order()];
        int looseRows = (loose.Count + LooseAcross - 1) / LooseAcross;
        int across = Math.Max(Math.Max(positions.Length, Math.Min(loose.Count, LooseAcross)), 8);
        int gridBottom = Top + (rows.Length * CellHeight) + (rows.Length > 0 ? 24 : 0);
        int looseBottom = gridBottom + (looseRows * (CellHeight + 18));
        (int width, int height) = (Left + (across * CellWidth) + 20, looseBottom + 66);

        StringBuilder svg = new();
        string title = $"Block {block}, {days}";
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" font-family=\"sans-serif\" font-size=\"14\" role=\"img\" aria-labelledby=\"t d\">\n");
        svg.Append(CultureInfo.InvariantCulture, $"<title id=\"t\">{Safe(title)}</title>\n<desc id=\"d\">{Safe(Summary(score.Figures))} A cell is a plant; the number is its damage in percent of the leaf.</desc>\n");
        svg.Append(CultureInfo.InvariantCulture, $"<rect width=\"{width}\" height=\"{height}\" fill=\"#ffffff\"/>\n");
        Text(svg, 20, 28, title, "start", "#111111", 18, bold: true);
        Text(svg, 20, 50, Summary(score.Figures), "start", "#111111", 13);
        for (int i = 0; i < positions.Length; i++)
        {
            Text(svg, Left + (i * CellWidth) + (CellWidth / 2), Top - 8, positions[i].ToString(CultureInfo.InvariantCulture), "middle", "#333333", 13);
        }

        for (int r = 0; r < rows.Length; r++)
        {
            Text(svg, Left - 10, Top + (r * CellHeight) + 25, "row " + rows[r].ToString(CultureInfo.InvariantCulture), "end", "#333333", 13);
        }

        foreach (BlockPlant plant in placed)
        {
            Cell(svg, Left + (Array.IndexOf(positions, plant.Position!.Value) * CellWidth), Top + (Array.IndexOf(rows, plant.Row!.Value) * CellHeight), plant);
        }

        for (int i = 0; i < loose.Count; i++)
        {
            int x = Left + (i % LooseAcross * CellWidth);
            int y = gridBottom + (i / LooseAcross * (CellHeight + 18)) + 14;
            Text(svg, x + (CellWidth / 2), y - 3, Short(loose[i].Code), "middle", "#333333", 11);
            Cell(svg, x, y, loose[i]);
        }

        Legend(svg, looseBottom + 24);
        return svg.Append("</svg>\n").ToString();
    }

    private static string Summary(BlockFigures figures) => figures.PlantCount == 0
        ? "No plant could be measured."
        : string.Create(CultureInfo.InvariantCulture, $"{figures.AffectedCount} of {figures.PlantCount} plants affected; damage {figures.Damage * 100:0.0} % on the mean ({figures.DamageInterval?.Low * 100:0.0} to {figures.DamageInterval?.High * 100:0.0} %).");

    private static void Cell(StringBuilder svg, int x, int y, BlockPlant plant)
    {
        (string fill, bool dark) = plant.Figures.Damage is { } damage ? ShadeOf(damage) : ("#ffffff", false);
        string frame = plant.IsAffected switch
        {
            true => "stroke=\"#111111\" stroke-width=\"3\"",
            false => "stroke=\"#777777\" stroke-width=\"1\"",
            _ => "stroke=\"#777777\" stroke-width=\"1\" stroke-dasharray=\"4 3\"",
        };
        svg.Append(CultureInfo.InvariantCulture, $"<g><title>{Safe(plant.Code)}: {BlockScreen.Cell(plant)} %, {plant.Figures.LeafCount} leaves, {plant.Figures.AffectedCount} affected</title><rect x=\"{x + 3}\" y=\"{y + 3}\" width=\"{CellWidth - 6}\" height=\"{CellHeight - 6}\" rx=\"4\" fill=\"{fill}\" {frame}/>");
        Text(svg, x + (CellWidth / 2), y + 25, BlockScreen.Cell(plant), "middle", dark ? "#ffffff" : "#111111", 14, plant.IsAffected == true);
        svg.Append("</g>\n");
    }

    private static void Legend(StringBuilder svg, int y)
    {
        string[] words = ["under 1", "1 to 5", "5 to 10", "10 to 20", "20 to 40", "40 and more"];
        Text(svg, 20, y + 14, "Damage, %", "start", "#333333", 12);
        for (int i = 0; i < Shades.Length; i++)
        {
            int x = 92 + (i * 74);
            svg.Append(CultureInfo.InvariantCulture, $"<rect x=\"{x}\" y=\"{y}\" width=\"70\" height=\"20\" fill=\"{Shades[i].Fill}\" stroke=\"#777777\"/>");
            Text(svg, x + 35, y + 14, words[i], "middle", Shades[i].Dark ? "#ffffff" : "#111111", 11);
        }

        Text(svg, 20, y + 36, "Thick frame: a leaf with 5 % damage or more. Dashed: nothing could be measured.", "start", "#333333", 12);
    }

    private static (string Fill, bool Dark) ShadeOf(double damage)
    {
        (_, string fill, bool dark) = Shades.Last(shade => damage >= shade.From || shade.From == 0);
        return (fill, dark);
    }

    private static void Text(StringBuilder svg, int x, int y, string text, string anchor, string fill, int size, bool bold = false) =>
        svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{x}\" y=\"{y}\" text-anchor=\"{anchor}\" fill=\"{fill}\" font-size=\"{size}\"{(bold ? " font-weight=\"bold\"" : string.Empty)}>{Safe(text)}</text>\n");

    private static string Short(string code) => code.Length <= 8 ? code : code[..7] + "…";

    // XML 1.0 has no place for control characters, escaped or not.
    private static string Safe(string text) => WebUtility.HtmlEncode(string.Concat(text.Where(letter => !char.IsControl(letter))));
}
