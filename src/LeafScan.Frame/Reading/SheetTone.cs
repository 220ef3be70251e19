using LeafScan.Frame.Sheets;
using LeafScan.Photos.Colour;
using OpenCvSharp;

namespace LeafScan.Frame.Reading;

/// <summary>
/// Whether the camera's tones are those of the print: the lighter grey steps of a scale sheet against the lightness asked of the
/// printer, with the paper as CIE L* <see cref="SheetLight.PaperLightness"/>. Tells burnt-out paper and strong tone curves, by which pale
/// specks drown; a printer's own error stays below it.
/// </summary>
internal static class SheetTone
{
    /// <summary>Departure in CIE L* of a step from which its tone is off. Design choice: office printers are believed within 10 (no source).</summary>
    public const double MostDeparture = 12;

    /// <summary>Least rise in CIE L* from a step to the next lighter one, asked 15 apart.</summary>
    public const double LeastRise = 5;

    /// <summary>Level of a channel, 0..255, from which the paper counts as burnt out.</summary>
    private const double BurntOut = 252;

    /// <summary>Steps darker than this are left out: a printer's black is no black, and stray light lifts it.</summary>
    private const double DarkestAsked = 50;

    /// <summary>Distance from neutral in CIE a*, b* from which a step is taken to be covered by something.</summary>
    private const double MostChroma = 12;

    /// <summary>Spread in a step, as levels, from which it is taken to be partly covered.</summary>
    private const double MostSpread = 20;

    /// <summary>True when the tones are off; false when they are as printed or when too little can be seen to tell.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, sRGB.</param>
    /// <param name="view">The sheet in it.</param>
    public static bool IsOff(Mat bgr, SheetView view)
    {
        if (view.Sheet.GreySteps.Count == 0 || SheetLight.Of(bgr, view) is not { } light)
        {
            return false;
        }

        if (SheetPrint.Seen(view).Select(marker => SheetPrint.Around(bgr, view, marker)).OfType<Scalar>().Any(white => Math.Max(white.Val0, Math.Max(white.Val1, white.Val2)) >= BurntOut))
        {
            return true;
        }

        List<(double Asked, double Seen)> steps =
        [
            .. view.Sheet.GreySteps.Where(step => step.LightnessNominal >= DarkestAsked)
                .Select(step => (step.LightnessNominal!.Value, Lightness(bgr, view, light, step.Area)))
                .Where(step => step.Item2 is not null).Select(step => (step.Value, step.Item2!.Value)),
        ];
        steps.Add((SheetLight.PaperLightness, SheetLight.PaperLightness));
        return steps.Count >= 3
            && (steps.Any(step => Math.Abs(step.Seen - step.Asked) > MostDeparture) || steps.Zip(steps.Skip(1)).Any(pair => pair.Second.Seen - pair.First.Seen < LeastRise));
    }

    private static double? Lightness(Mat bgr, SheetView view, SheetLight light, SheetArea area)
    {
        // The middle half of the step: its edges are soft.
        Point2d middle = view.ToPhoto(area.LeftMm + (area.WidthMm / 2), area.TopMm + (area.HeightMm / 2));
        int half = (int)(area.WidthMm / 4 * view.PixelsPerMmAt(middle.X, middle.Y));
        Rect wanted = new((int)middle.X - half, (int)middle.Y - half, 2 * half, 2 * half);
        Rect box = Rect.Intersect(wanted, new Rect(0, 0, bgr.Cols, bgr.Rows));
        if (half < 2 || box != wanted)
        {
            return null;
        }

        using Mat part = bgr.SubMat(box);
        Cv2.MeanStdDev(part, out Scalar mean, out Scalar spread);
        LabColour colour = light.Corrected(mean, middle.X, middle.Y);
        bool covered = spread.Val1 > MostSpread || Math.Sqrt((colour.A * colour.A) + (colour.B * colour.B)) > MostChroma;
        return covered ? null : colour.L;
    }
}
