using System.Globalization;
using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Overlay;

/// <summary>The strip below an overlay: damage with its interval, each share with its pattern, and doubts in words.</summary>
internal static class OverlayLegend
{
    /// <summary>Colour below the words.</summary>
    public static readonly Scalar Paper = new(245, 245, 245);

    /// <summary>Draws the strip.</summary>
    /// <param name="reading">The photo's reading.</param>
    /// <param name="width">Width of the strip in pixels.</param>
    /// <param name="stroke">Line width of the overlay; letters follow it.</param>
    public static Mat Draw(PhotoReading reading, int width, int stroke)
    {
        int edge = 10 * stroke;
        int line = OverlayText.LineHeight(stroke);
        List<string> above = [.. Headlines(reading).SelectMany(text => OverlayText.Wrap(text, width - (2 * edge), stroke))];
        List<string> below = [.. Doubts(reading).SelectMany(text => OverlayText.Wrap(text, width - (2 * edge), stroke))];
        List<Swatch> swatches = Place(Shares(reading), width, edge, stroke);
        int swatchRows = swatches.Count == 0 ? 0 : swatches[^1].Row + 1;

        Mat strip = new((line * (above.Count + swatchRows + below.Count)) + edge, width, MatType.CV_8UC3, Paper);
        int baseline = line - (line / 5);
        foreach (string text in above)
        {
            OverlayText.Write(strip, text, new Point(edge, baseline), stroke);
            baseline += line;
        }

        foreach (Swatch swatch in swatches)
        {
            DrawSwatch(strip, swatch, baseline + (swatch.Row * line), stroke);
        }

        baseline += swatchRows * line;
        foreach (string text in below)
        {
            OverlayText.Write(strip, text, new Point(edge, baseline), stroke);
            baseline += line;
        }

        return strip;
    }

    private static IEnumerable<string> Headlines(PhotoReading reading)
    {
        string what = reading.Kind == PhotoKind.Leaf.Name() ? "leaf" : "foliage";
        for (int i = 0; i < reading.Leaves.Count; i++)
        {
            LeafReading leaf = reading.Leaves[i];
            string name = reading.Leaves.Count > 1 ? $"leaf {i + 1}: damage" : "damage";
            yield return string.Create(CultureInfo.InvariantCulture,
                $"{name} {leaf.Damage * 100:0.0} % of the {what} that can be judged ({leaf.DamageLow * 100:0.0} to {leaf.DamageHigh * 100:0.0} %), {ExtraWords(leaf)}");
        }
    }

    // Of a whole plant no specks are seen; its gaps and sides are what a person can check in the picture.
    private static string ExtraWords(LeafReading leaf) => leaf.Crown is not { } crown ? CountWords(leaf)
        : string.Create(CultureInfo.InvariantCulture, $"gaps {crown.Thinning * 100:0.0} % of the crown, {(crown.WorstSide == "none" ? "no side stands out" : $"worst on the {crown.WorstSide}")}");

    private static string CountWords(LeafReading leaf)
    {
        string about = leaf.Flags.Contains(Flag.CountEstimated.Name) ? "about " : leaf.Flags.Contains(Flag.CountIsLowerBound.Name) ? "at least " : string.Empty;
        return leaf.Flags.Contains(Flag.SpecksTooFine.Name)
            ? "specks too fine to count"
            : string.Create(CultureInfo.InvariantCulture, $"{about}{leaf.SpeckCount} speck{(leaf.SpeckCount == 1 ? string.Empty : "s")}{NeedleWords(leaf)}");
    }

    private static string NeedleWords(LeafReading leaf) => leaf.SpecksPerCmOfNeedle is { } perCm ? string.Create(CultureInfo.InvariantCulture, $" or {perCm:0.0} per cm of needle") : string.Empty;

    // Shares of all leaves of the photo together: each leaf counts by its area.
    private static IEnumerable<(OverlayStyle Style, string Text)> Shares(PhotoReading reading)
    {
        double area = reading.Leaves.Sum(leaf => leaf.AreaPx);
        foreach (OverlayStyle style in OverlayStyle.All)
        {
            double share = area > 0 ? reading.Leaves.Sum(leaf => leaf.AreaPx * ShareOf(leaf.Shares, style.Code)) / area : 0;
            yield return (style, string.Create(CultureInfo.InvariantCulture, $"{style.Word} {share * 100:0.0} %"));
        }
    }

    private static double ShareOf(LeafShares shares, MaskCode code) => code switch
    {
        MaskCode.Speck => shares.Stippled,
        MaskCode.Yellowed => shares.Yellowed,
        MaskCode.Browned => shares.Browned,
        MaskCode.Chewed => shares.Chewed,
        MaskCode.Unassessed => shares.Unassessed,
        _ => shares.Sound,
    };

    // A missing scale does not touch what the picture shows, so it is not repeated on every overlay.
    private static IEnumerable<string> Doubts(PhotoReading reading) =>
        reading.Flags.Concat(reading.Leaves.SelectMany(leaf => leaf.Flags)).Distinct()
            .Where(name => name != Flag.NoScale.Name && Flag.All.ContainsKey(name))
            .Select(name => "Doubt: " + Flag.All[name].Meaning);

    private sealed record Swatch(OverlayStyle Style, string Text, int X, int Row);

    private static List<Swatch> Place(IEnumerable<(OverlayStyle Style, string Text)> shares, int width, int edge, int stroke)
    {
        List<Swatch> placed = [];
        int x = edge;
        int row = 0;
        foreach ((OverlayStyle style, string text) in shares)
        {
            int needed = (40 * stroke) + OverlayText.Width(text, stroke) + (18 * stroke);
            if (x > edge && x + needed > width)
            {
                x = edge;
                row++;
            }

            placed.Add(new Swatch(style, text, x, row));
            x += needed;
        }

        return placed;
    }

    private static void DrawSwatch(Mat strip, Swatch swatch, int baseline, int stroke)
    {
        Rect box = new Rect(swatch.X, baseline - (18 * stroke), 32 * stroke, 22 * stroke) & new Rect(0, 0, strip.Cols, strip.Rows);
        using (Mat place = strip[box])
        {
            // A leaf green below the pattern, as in the photo.
            place.SetTo(new Scalar(60, 110, 70));
            if (swatch.Style.Pattern == HatchPattern.Ring)
            {
                foreach (Point centre in new[] { new Point(8, 8), new Point(20, 13), new Point(26, 6) })
                {
                    Cv2.Circle(place, new Point(centre.X * stroke, centre.Y * stroke), 3 * stroke, Scalar.Black, stroke + 1, LineTypes.AntiAlias);
                    Cv2.Circle(place, new Point(centre.X * stroke, centre.Y * stroke), 3 * stroke, swatch.Style.Colour, stroke, LineTypes.AntiAlias);
                }
            }
            else
            {
                using Mat codes = new(place.Size(), MatType.CV_8UC1, new Scalar((int)swatch.Style.Code));
                OverlayHatch.Paint(place, codes, stroke);
            }
        }

        Cv2.Rectangle(strip, box, Scalar.Black, stroke);
        OverlayText.Write(strip, swatch.Text, new Point(box.Right + (6 * stroke), baseline), stroke);
    }
}
