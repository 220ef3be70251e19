using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Client;

/// <summary>The table of a place's plants, a block a row.</summary>
internal static class NotePlantTable
{
    private static readonly double[] Shares = [0.10, 0.28, 0.17, 0.17, 0.13, 0.15];

    /// <summary>Heading and rows; nothing for a note on one plant.</summary>
    public static IEnumerable<PageBlock> Of(NoteContent content, double width, NoteSizes sizes)
    {
        if (content.Plants.Count == 0)
        {
            yield break;
        }

        yield return new PageBlock().Text(content.Words.Plants, sizes.Heading, width, NoteInks.Leaf, bold: true).Skip(0.8)
            .Beside(Row(["Plant", "", "Damaged", content.Words.LastTime, "", content.Words.Done], width, sizes.Small, bold: true), 0, sizes.Heading * 1.5).Skip(0.4);
        foreach (NotePlant plant in content.Plants)
        {
            PageBlock row = Row(
                [plant.Code, plant.Name ?? "", Figure(plant.Now, content), Figure(plant.Before, content), plant.Word, plant.Done], width, sizes.Text * 0.92, bold: false);
            row.Add(new ThinLine(0, -0.5, width, -0.5, 0.12) { Ink = NoteInks.Rule });
            yield return row.Skip(1);
        }

        yield return new PageBlock().Skip(3);
    }

    private static string Figure(NoteFigure? figure, NoteContent content) => figure is null ? "-"
        : $"{NoteForms.Percent(figure.Damage)}\n{content.Forms.Day(figure.Day)}";

    private static PageBlock Row(string[] cells, double width, double size, bool bold)
    {
        PageBlock row = new();
        double left = 0;
        for (int i = 0; i < cells.Length; i++)
        {
            double room = width * Shares[i];
            PageBlock cell = new();
            string[] lines = cells[i].Split('\n');
            cell.Text(lines[0], size, room - 2.5, bold ? NoteInks.Small : NoteInks.Text, bold || i is 0 or 2);
            if (lines.Length > 1)
            {
                cell.Text(lines[1], size * 0.8, room - 2.5, NoteInks.Small);
            }

            row.Beside(cell, left);
            left += room;
        }

        return row;
    }
}
