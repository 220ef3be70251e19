using System.Globalization;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Taps.Overlay;

/// <summary>
/// Draws what was found over the first photo: a ring around each walker with a line to where it went, a square for fast
/// ones, small grey crosses on debris, and a legend in words below.
/// </summary>
public static class TapOverlayPainter
{
    private const int LongSideMaxPx = 2000;
    private static readonly Scalar Paper = new(245, 245, 245);
    private static readonly SpeckFate[] Order =
        [SpeckFate.Debris, SpeckFate.Blown, SpeckFate.Gone, SpeckFate.Come, SpeckFate.Candidate, SpeckFate.PossiblePredator, SpeckFate.Crawling];

    /// <summary>Draws the overlay.</summary>
    /// <param name="photo">The first photo; not changed.</param>
    /// <param name="reading">Its reading.</param>
    /// <returns>8-bit B G R, at most 2000 pixels on its long side and the legend below. The caller disposes it.</returns>
    public static Mat Paint(Photo photo, TapReading reading)
    {
        double scale = Math.Min(1, LongSideMaxPx / (double)Math.Max(photo.Pixels.Cols, photo.Pixels.Rows));
        using Mat picture = new();
        Cv2.Resize(photo.Pixels, picture, new Size(Math.Max(1, Math.Round(photo.Pixels.Cols * scale)), Math.Max(1, Math.Round(photo.Pixels.Rows * scale))), 0, 0, InterpolationFlags.Area);
        int stroke = Math.Max(1, (int)Math.Round(Math.Max(picture.Cols, picture.Rows) / 1000.0));
        foreach (SpeckFate fate in Order)
        {
            foreach (TapSpeck speck in reading.Specks.Where(s => s.Fate == fate))
            {
                int radius = Math.Max(7 * stroke, (int)Math.Round(speck.DiameterPx * scale));
                TapMark.Draw(picture, fate, Place(speck.X, speck.Y, scale), Place(speck.ToX, speck.ToY, scale), radius, stroke);
            }
        }

        int least = 420 * stroke;
        if (picture.Cols < least)
        {
            Cv2.CopyMakeBorder(picture, picture, 0, 0, 0, least - picture.Cols, BorderTypes.Constant, Paper);
        }

        using Mat legend = Legend(reading, picture.Cols, stroke);
        Mat whole = new();
        Cv2.VConcat([picture, legend], whole);
        return whole;
    }

    private static Point Place(double x, double y, double scale) => new((int)Math.Round(((x + 0.5) * scale) - 0.5), (int)Math.Round(((y + 0.5) * scale) - 0.5));

    private static Mat Legend(TapReading reading, int width, int stroke)
    {
        int edge = 10 * stroke;
        int line = TapText.Line(stroke);
        List<string> head = TapText.Fold(Headline(reading), width - (2 * edge), stroke);
        List<string> doubts = [.. reading.Flags.Where(name => name != Flag.NoScale.Name && Flag.All.ContainsKey(name)).SelectMany(name => TapText.Fold("Doubt: " + Flag.All[name].Meaning, width - (2 * edge), stroke))];
        List<(SpeckFate Fate, string Words, int X, int Row)> marks = Arrange(reading, width, edge, stroke);
        int rows = marks.Count == 0 ? 0 : marks[^1].Row + 1;
        Mat strip = new((line * (head.Count + rows + doubts.Count)) + edge, width, MatType.CV_8UC3, Paper);
        int baseline = line - (line / 5);
        foreach (string words in head)
        {
            TapText.Write(strip, words, new Point(edge, baseline), stroke);
            baseline += line;
        }

        foreach ((SpeckFate fate, string words, int x, int row) in marks)
        {
            int y = baseline + (row * line);
            Point at = new(x + (9 * stroke), y - (6 * stroke));
            bool moved = fate is SpeckFate.Crawling or SpeckFate.PossiblePredator or SpeckFate.Blown;
            TapMark.Draw(strip, fate, at, moved ? new Point(at.X + (22 * stroke), at.Y) : at, 7 * stroke, stroke);
            TapText.Write(strip, words, new Point(x + (40 * stroke), y), stroke);
        }

        baseline += rows * line;
        foreach (string words in doubts)
        {
            TapText.Write(strip, words, new Point(edge, baseline), stroke);
            baseline += line;
        }

        return strip;
    }

    private static string Headline(TapReading reading) => reading.Crawling is { } crawling
        ? string.Create(CultureInfo.InvariantCulture, $"{crawling} crawling ({reading.CrawlingLow} to {reading.CrawlingHigh}) between the two photos; the ring is the old place, the line leads to the new one")
        : string.Create(CultureInfo.InvariantCulture, $"{reading.Candidates} candidates: one photo cannot tell a mite from dust");

    private static List<(SpeckFate Fate, string Words, int X, int Row)> Arrange(TapReading reading, int width, int edge, int stroke)
    {
        List<(SpeckFate, string, int, int)> marks = [];
        int x = edge;
        int row = 0;
        foreach (SpeckFate fate in Order.Reverse())
        {
            int count = reading.Specks.Count(s => s.Fate == fate);
            if (count == 0 && fate != SpeckFate.Crawling)
            {
                continue;
            }

            string words = string.Create(CultureInfo.InvariantCulture, $"{TapMark.Words(fate)}: {count}");
            int needed = (40 * stroke) + TapText.Width(words, stroke) + (18 * stroke);
            if (x > edge && x + needed > width)
            {
                (x, row) = (edge, row + 1);
            }

            marks.Add((fate, words, x, row));
            x += needed;
        }

        return marks;
    }
}
