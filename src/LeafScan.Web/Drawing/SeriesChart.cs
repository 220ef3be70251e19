using System.Globalization;
using System.Text;
using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Web.Drawing;

/// <summary>
/// The series of a plant as SVG: a dot with its interval for each walk, care and taps marked at the foot. Drawn with attributes only,
/// because the page allows no inline style.
/// </summary>
internal static class SeriesChart
{
    private const double Width = 720, Height = 360, Left = 56, Right = 20, Top = 20, Foot = 92;
    private const string Ink = "#1b1b1b", Pale = "#c9c9c9", Dot = "#0072b2", Care = "#8a4500";

    public static string Draw(Plant plant, IReadOnlyList<SeriesPoint> series, IReadOnlyList<CareEntry> care, IReadOnlyList<TapOnRecord> taps)
    {
        SeriesPoint[] points = [.. series.Where(point => point.Leaves.Damage is not null)];
        StringBuilder svg = new();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {Height}\" role=\"img\" aria-labelledby=\"t d\" font-family=\"sans-serif\" font-size=\"14\" fill=\"{Ink}\">");
        svg.Append(CultureInfo.InvariantCulture, $"<title id=\"t\">Damage of {Text(plant.Code)} over time</title><desc id=\"d\">{Text(Words(points, care))}</desc>");
        svg.Append(CultureInfo.InvariantCulture, $"<rect width=\"{Width}\" height=\"{Height}\" fill=\"#ffffff\"/>");
        DateOnly[] days = [.. points.Select(point => point.WalkedOn), .. care.Select(entry => entry.DoneOn), .. taps.Select(tap => tap.Tap.Day)];
        if (days.Length == 0)
        {
            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{Width / 2}\" y=\"{Height / 2}\" text-anchor=\"middle\">Nothing is on record yet.</text></svg>");
            return svg.ToString();
        }

        (int first, int last) = (days.Min().DayNumber, days.Max().DayNumber);
        double X(DateOnly day) => last == first ? (Left + Width - Right) / 2 : Left + 12 + ((day.DayNumber - first) / (double)(last - first) * (Width - Left - Right - 24));
        double most = Ceiling(points.Length == 0 ? 0.1 : points.Max(point => point.Leaves.DamageInterval?.High ?? point.Leaves.Damage!.Value));
        double Y(double damage) => Height - Foot - (damage / most * (Height - Foot - Top));
        Grid(svg, most, Y);
        Marks(svg, care, taps, X);
        Days(svg, points, X);
        Line(svg, points, X, Y);
        svg.Append("</svg>");
        return svg.ToString();
    }

    private static void Grid(StringBuilder svg, double most, Func<double, double> y)
    {
        for (int step = 0; step <= 4; step++)
        {
            double damage = most * step / 4;
            svg.Append(CultureInfo.InvariantCulture, $"<path d=\"M{Left} {y(damage):0.#}H{Width - Right}\" stroke=\"{(step == 0 ? Ink : Pale)}\" stroke-width=\"1\"/>");
            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{Left - 8}\" y=\"{y(damage) + 5:0.#}\" text-anchor=\"end\">{damage * 100:0.##} %</text>");
        }
    }

    private static void Line(StringBuilder svg, SeriesPoint[] points, Func<DateOnly, double> x, Func<double, double> y)
    {
        string corners = string.Join(' ', points.Select(point => string.Create(CultureInfo.InvariantCulture, $"{x(point.WalkedOn):0.#},{y(point.Leaves.Damage!.Value):0.#}")));
        svg.Append(CultureInfo.InvariantCulture, $"<polyline points=\"{corners}\" fill=\"none\" stroke=\"{Dot}\" stroke-width=\"1.5\" stroke-dasharray=\"5 4\"/>");
        foreach (SeriesPoint point in points)
        {
            double across = x(point.WalkedOn);
            if (point.Leaves.DamageInterval is { } range)
            {
                svg.Append(CultureInfo.InvariantCulture, $"<path d=\"M{across:0.#} {y(range.High):0.#}V{y(range.Low):0.#}M{across - 6:0.#} {y(range.High):0.#}h12M{across - 6:0.#} {y(range.Low):0.#}h12\" stroke=\"{Dot}\" stroke-width=\"2.5\" fill=\"none\"/>");
            }

            svg.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{across:0.#}\" cy=\"{y(point.Leaves.Damage!.Value):0.#}\" r=\"6\" fill=\"{Dot}\" stroke=\"#ffffff\" stroke-width=\"1.5\"/>");
        }
    }

    private static void Days(StringBuilder svg, SeriesPoint[] points, Func<DateOnly, double> x)
    {
        double free = double.NegativeInfinity;
        foreach (SeriesPoint point in points)
        {
            double across = x(point.WalkedOn);
            if (across - free < 90)
            {
                continue;
            }

            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{across:0.#}\" y=\"{Height - Foot + 20}\" text-anchor=\"middle\">{point.WalkedOn:yyyy-MM-dd}</text>");
            free = across;
        }
    }

    // Care as a triangle with its word, taps as a square with the count: shape and words, not colour alone.
    private static void Marks(StringBuilder svg, IReadOnlyList<CareEntry> care, IReadOnlyList<TapOnRecord> taps, Func<DateOnly, double> x)
    {
        double free = double.NegativeInfinity;
        foreach (CareEntry entry in care)
        {
            double across = x(entry.DoneOn);
            svg.Append(CultureInfo.InvariantCulture, $"<path d=\"M{across:0.#} {Top}V{Height - Foot}\" stroke=\"{Care}\" stroke-width=\"1\" stroke-dasharray=\"2 4\"/>");
            svg.Append(CultureInfo.InvariantCulture, $"<path d=\"M{across:0.#} {Height - 66}l7 12h-14z\" fill=\"{Care}\"/>");
            if (across - free >= 70)
            {
                svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{across:0.#}\" y=\"{Height - 40}\" text-anchor=\"middle\" fill=\"{Care}\">{entry.What.ToString().ToLowerInvariant()}</text>");
                free = across;
            }
        }

        foreach (TapOnRecord tap in taps)
        {
            double across = x(tap.Tap.Day);
            svg.Append(CultureInfo.InvariantCulture, $"<rect x=\"{across - 5:0.#}\" y=\"{Height - 30}\" width=\"10\" height=\"10\" fill=\"none\" stroke=\"{Ink}\" stroke-width=\"2\"/>");
            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{across:0.#}\" y=\"{Height - 5}\" text-anchor=\"middle\">{tap.LiveMites}</text>");
        }
    }

    private static double Ceiling(double damage)
    {
        double[] steps = [0.02, 0.04, 0.1, 0.2, 0.4, 0.6, 0.8, 1];
        return steps.FirstOrDefault(step => step >= damage, 1);
    }

    private static string Words(SeriesPoint[] points, IReadOnlyList<CareEntry> care)
    {
        string walks = string.Join("; ", points.Select(point => string.Create(
            CultureInfo.InvariantCulture, $"{point.WalkedOn:yyyy-MM-dd}: {point.Leaves.Damage * 100:0.0} % ({point.Leaves.DamageInterval?.Low * 100:0.0} to {point.Leaves.DamageInterval?.High * 100:0.0} %)")));
        string done = string.Join("; ", care.Select(entry => string.Create(CultureInfo.InvariantCulture, $"{entry.What.ToString().ToLowerInvariant()} on {entry.DoneOn:yyyy-MM-dd}")));
        return $"{(walks.Length > 0 ? walks : "No walk yet")}. {(done.Length > 0 ? "Care: " + done : "No care entry")}.";
    }

    private static string Text(string text) => System.Security.SecurityElement.Escape(text);
}
