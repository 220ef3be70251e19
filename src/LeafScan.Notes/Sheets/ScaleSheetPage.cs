using LeafScan.Frame.Sheets;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Sheets;

/// <summary>Draws the scale sheet that <see cref="ScaleSheet"/> describes.</summary>
public static class ScaleSheetPage
{
    private const byte Faint = 200;

    private const byte Soft = 90;

    /// <summary>How thick the bar and its ticks are.</summary>
    private const double BarMm = 0.3;

    /// <summary>The page of one side of the sheet.</summary>
    public static PaperPage Of(ScaleSheet sheet)
    {
        List<PaperShape> shapes = [.. sheet.Markers.Select(m => BlackSquares.Of(MarkerBits.Of(m.Id), m.Area.LeftMm, m.Area.TopMm, m.Area.WidthMm / MarkerBits.Side))];

        shapes.AddRange(Head(sheet));
        shapes.AddRange(FieldCorners(sheet.Field));
        shapes.AddRange(Steps(sheet));
        shapes.AddRange(Foot(sheet));
        return new PaperPage(sheet.Paper.WidthMm, sheet.Paper.HeightMm, $"LeafScan scale sheet, {Words(sheet.Side)} side, {sheet.Paper.Name}", shapes);
    }

    private static string Words(SheetSide side) => side == SheetSide.Leaf ? "leaf" : "tap";

    private static IEnumerable<PaperShape> Head(ScaleSheet sheet)
    {
        double middle = sheet.Paper.WidthMm / 2;
        yield return new PaperText(middle, ScaleSheet.MarkerEdgeMm + 4, 4, $"LeafScan scale sheet: {Words(sheet.Side)} side") { Centred = true, Bold = true };
        double y = sheet.RulerStartMm.YMm;
        double x = sheet.RulerStartMm.XMm;
        yield return new FilledBox(x, y - (BarMm / 2), ScaleSheet.RulerMm, BarMm);
        for (int mm = 0; mm <= ScaleSheet.RulerMm; mm += 10)
        {
            // The end ticks lie inside, so that it is 100 mm from outer edge to outer edge.
            double left = Math.Clamp(mm - (BarMm / 2), 0, ScaleSheet.RulerMm - BarMm);
            double height = mm % 50 == 0 ? 3 : 2;
            yield return new FilledBox(x + left, y - height, BarMm, height);
        }

        yield return new PaperText(middle, y + 4.2, 2.8, "Print at 100 %, not \"fit to page\". This bar must measure 100 mm from end to end;") { Centred = true };
        yield return new PaperText(middle, y + 8, 2.8, "if it does not: leafscan print measured MM tells LeafScan what it measures.") { Centred = true };
    }

    private static IEnumerable<PaperShape> FieldCorners(SheetArea field)
    {
        const double Arm = 6;
        (double left, double top) = (field.LeftMm, field.TopMm);
        (double right, double bottom) = (left + field.WidthMm, top + field.HeightMm);
        foreach ((double x, double y, int dx, int dy) in new[] { (left, top, 1, 1), (right, top, -1, 1), (left, bottom, 1, -1), (right, bottom, -1, -1) })
        {
            yield return new ThinLine(x, y, x + dx * Arm, y, 0.2, Faint);
            yield return new ThinLine(x, y, x, y + dy * Arm, 0.2, Faint);
        }
    }

    private static IEnumerable<PaperShape> Steps(ScaleSheet sheet)
    {
        foreach (GreyStep step in sheet.GreySteps)
        {
            SheetArea a = step.Area;
            if (step.LightnessNominal is { } lightness)
            {
                yield return new FilledBox(a.LeftMm, a.TopMm, a.WidthMm, a.HeightMm, GreyLevel.Of(lightness));
            }
            else
            {
                yield return new ThinLine(a.LeftMm, a.TopMm, a.LeftMm + a.WidthMm, a.TopMm, 0.2, Faint);
                yield return new ThinLine(a.LeftMm + a.WidthMm, a.TopMm, a.LeftMm + a.WidthMm, a.TopMm + a.HeightMm, 0.2, Faint);
                yield return new ThinLine(a.LeftMm, a.TopMm + a.HeightMm, a.LeftMm + a.WidthMm, a.TopMm + a.HeightMm, 0.2, Faint);
            }
        }
    }

    // Short lines: the markers need white paper about them.
    private static IEnumerable<PaperShape> Foot(ScaleSheet sheet)
    {
        double middle = sheet.Paper.WidthMm / 2;
        string[] lines = sheet.Side == SheetSide.Leaf
            ?
            [
                "Lay leaves flat inside the corners, apart from one another.",
                "Photograph from above in even light, with the whole sheet in the frame.",
                "Keep at least three of the four black squares clear. Do not cover the grey steps.",
            ]
            :
            [
                "Hold the sheet under a branch and strike the branch; note how many strikes.",
                "Take two photos some ten seconds apart with the sheet held still.",
                "Keep at least three of the four black squares clear.",
            ];
        double top = sheet.Field.TopMm + sheet.Field.HeightMm;
        double[] baselines = [top + 3.2, top + 6.6, sheet.Paper.HeightMm - ScaleSheet.MarkerEdgeMm - 0.4];
        return lines.Zip(baselines, (words, y) => new PaperText(middle, y, 2.5, words) { Centred = true, Grey = Soft });
    }
}
