using System.Diagnostics;
using System.Globalization;
using LeafScan.Frame;
using LeafScan.Frame.Sheets;
using LeafScan.Leaves;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Sheets;
using OpenCvSharp;

namespace LeafScan.Training.FrameCheck;

/// <summary>Measures on rendered sheets how well scale, area and colour are read, and prints tables for docs/accuracy.md.</summary>
/// <param name="seed">First seed; sheets count up from it.</param>
/// <param name="sheets">Sheets for each line of a table.</param>
/// <param name="tell">Takes a line of progress.</param>
public sealed class FrameCheckRun(int seed, int sheets, Action<string> tell)
{
    private static readonly (double From, double To)[] Tilts = [(0, 10), (10, 20), (20, 30), (30, 35)];

    /// <summary>The parts that there are, in the order of the tables.</summary>
    public static IReadOnlyList<string> Parts { get; } = ["scale", "area", "colour", "damage", "speed"];

    /// <summary>The tables as Markdown, each as soon as it is done.</summary>
    /// <param name="parts">Which of <see cref="Parts"/>.</param>
    public IEnumerable<string> Tables(IReadOnlyCollection<string> parts) => Parts.Where(parts.Contains).Select(part => part switch
    {
        "scale" => Scales(),
        "area" => Areas(),
        "colour" => Colours(),
        "damage" => Damage(),
        _ => Speed(),
    });

    private string Scales()
    {
        List<string> lines = ["| scale over the field | sheets | found | with fewer than three squares in view | error, median | largest with three or four | largest of all |", "| --- | ---: | ---: | ---: | ---: | ---: | ---: |"];
        foreach ((double from, double to) in Tilts)
        {
            lines.Add(ScaleLine($"tilt {from:0} to {to:0}°", from, to, covered: 0));
        }

        lines.Add(ScaleLine("one corner covered, tilt 0 to 35°", 0, 35, covered: 1));
        lines.Add(ScaleLine("two corners covered, tilt 0 to 35°", 0, 35, covered: 2));
        lines.Add(ScaleLine("three corners covered, tilt 0 to 35°", 0, 35, covered: 3));
        return string.Join('\n', lines);
    }

    private string ScaleLine(string words, double from, double to, int covered)
    {
        List<double> errors = [];
        List<double> sure = [];
        int found = 0;
        int few = 0;
        for (int i = 0; i < sheets; i++)
        {
            Random random = new(seed + i);
            SheetSpec spec = Spec(random, from, to) with { CoveredCorners = [.. Enumerable.Range(0, 4).OrderBy(_ => random.Next()).Take(covered)] };
            using RenderedSheet sheet = SheetRenderer.Render(spec);
            FrameReading frame = FrameReader.Read(sheet.Photo, new FrameOptions());
            if (frame.Sheet?.Sheet == spec.Sheet)
            {
                found++;
                bool enough = frame.Sheet.MarkersSeen.Count >= 3;
                few += enough ? 0 : 1;
                errors.AddRange(ScaleErrors(sheet, frame));
                sure.AddRange(enough ? ScaleErrors(sheet, frame) : []);
            }
        }

        tell(words);
        return Line(words, sheets, found, few, Percent(Middle(errors)), Percent(sure.DefaultIfEmpty(double.NaN).Max()), Percent(errors.DefaultIfEmpty(double.NaN).Max()));
    }

    private static IEnumerable<double> ScaleErrors(RenderedSheet sheet, FrameReading frame)
    {
        SheetArea field = sheet.Spec.Sheet.Field;
        for (int i = 0; i < 25; i++)
        {
            (double x, double y) = (field.LeftMm + (i % 5 / 4.0 * field.WidthMm), field.TopMm + (i / 5 / 4.0 * field.HeightMm));
            Point2d at = sheet.Camera.At(x, y);
            yield return Math.Abs((frame.PixelsPerMmAt(at.X, at.Y)!.Value / sheet.Camera.PixelsPerMm(x, y)) - 1);
        }
    }

    private string Areas()
    {
        List<double> errors = [];
        int several = 0;
        int count = Math.Max(4, sheets / 2);
        for (int i = 0; i < count; i++)
        {
            Random random = new(seed + 500 + i);
            using RenderedSheet sheet = SheetRenderer.Render(Spec(random, 0, 35) with { LeafSeed = seed + i, LeafLengthMm = 60 + random.Next(60) });
            PhotoReading? reading = Measure(sheet.Photo, balance: true);
            several += reading?.Leaves.Count > 1 ? 1 : 0;
            if (reading is not null)
            {
                // Leaflets of one leaf are measured one by one on a sheet. What was chewed is measured as missing: the leaf
                // that is there has an area that does not hang on how it is rebuilt.
                errors.Add((reading.Leaves.Sum(leaf => leaf.AreaMm2!.Value * (1 - leaf.Shares.Chewed)) / sheet.LeafAreaMm2) - 1);
            }

            tell($"leaf area {i + 1} of {count}" + (reading is null ? ": not measured" : ": " + Percent(errors[^1]) + $", {reading.Leaves.Count} found"));
        }

        return "| area of the leaf that is there, tilt 0 to 35°, whole program | leaves | measured | more than one found | mean error | mean of its size | largest |\n| --- | ---: | ---: | ---: | ---: | ---: | ---: |\n"
            + Line("rendered leaf on a sheet", count, errors.Count, several, Percent(errors.Average()), Percent(errors.Average(Math.Abs)), Percent(errors.Max(Math.Abs)));
    }

    private string Colours()
    {
        List<string> lines = ["| known colours (24), CIEDE2000 | as photographed, mean | corrected, mean | corrected, largest |", "| --- | ---: | ---: | ---: |"];
        foreach (LightColour light in (LightColour[])[LightColour.Tungsten, LightColour.Shade, LightColour.Noon])
        {
            List<double> before = [];
            List<double> after = [];
            for (int i = 0; i < Math.Max(3, sheets / 4); i++)
            {
                using RenderedSheet sheet = SheetRenderer.Render(Spec(new Random(seed + 900 + i), 0, 25) with { Chips = true, Light = light });
                FrameReading frame = FrameReader.Read(sheet.Photo, new FrameOptions());
                if (frame.Sheet is { } view && SheetLight.Of(sheet.Photo, view) is { } white)
                {
                    Compare(sheet, white, before, after);
                }
            }

            lines.Add(Line(light.Name, Number(before.Average()), Number(after.Average()), Number(after.Max())));
            tell(light.Name);
        }

        return string.Join('\n', lines);
    }

    private static void Compare(RenderedSheet sheet, SheetLight white, List<double> before, List<double> after)
    {
        for (int i = 0; i < SheetPainter.Chips.Count; i++)
        {
            SheetArea a = SheetPainter.ChipArea(sheet.Spec.Sheet, i);
            Point2d at = sheet.Camera.At(a.LeftMm + (a.WidthMm / 2), a.TopMm + (a.HeightMm / 2));
            using Mat chip = sheet.Photo.SubMat(new Rect((int)at.X - 12, (int)at.Y - 12, 24, 24));
            Scalar seen = Cv2.Mean(chip);
            (byte r, byte g, byte b) = SheetPainter.Chips[i];
            LabColour truth = LabColour.FromSrgb(r, g, b);
            before.Add(LabColour.Difference(truth, LabColour.FromSrgb((byte)Math.Round(seen.Val2), (byte)Math.Round(seen.Val1), (byte)Math.Round(seen.Val0))));
            after.Add(LabColour.Difference(truth, white.Corrected(seen, at.X, at.Y)));
        }
    }

    /// <summary>Leaves with less true damage are passed over: of a sound leaf little can be misread.</summary>
    private const double LeastDamage = 0.04;

    private static double TrueDamage(Mat mask)
    {
        using Mat hit = new();
        Cv2.InRange(mask, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Browned), hit);
        double damaged = Cv2.CountNonZero(hit);
        Cv2.InRange(mask, Scalar.All((int)MaskCode.Sound), Scalar.All((int)MaskCode.Browned), hit);
        return damaged / Math.Max(1, Cv2.CountNonZero(hit));
    }

    // The same leaf on the same sheet; only the colour of the light changes.
    private string Damage()
    {
        List<string> lines = ["| damage of one leaf under five lights, paper left as it is, % | " + string.Join(" | ", LightColour.All.Select(l => l.Name)) + " | SD | SD, paper made neutral first |", "| --- |" + string.Concat(Enumerable.Repeat(" ---: |", LightColour.All.Count + 2))];
        List<double> plainSpread = [];
        List<double> whiteSpread = [];
        int wanted = Math.Max(2, Math.Min(8, sheets / 2));
        for (int i = 0; plainSpread.Count < wanted && i < 40 * wanted; i++)
        {
            SheetSpec spec = Spec(new Random(seed + 1300 + i), 0, 10) with { LeafSeed = seed + 40 + i, LeafLengthMm = 110, LongSidePx = 2200, Light = LightColour.Noon };
            using RenderedSheet first = SheetRenderer.Render(spec);
            if (TrueDamage(first.Mask) < LeastDamage)
            {
                continue;
            }

            List<double> plain = [];
            List<double> white = [];
            foreach (LightColour light in LightColour.All)
            {
                using RenderedSheet sheet = SheetRenderer.Render(spec with { Light = light });
                plain.Add(100 * DamageOf(Measure(sheet.Photo, balance: false)));
                white.Add(100 * DamageOf(Measure(sheet.Photo, balance: true)));
            }

            plainSpread.Add(Deviation(plain));
            whiteSpread.Add(Deviation(white));
            lines.Add(Line([$"leaf {plainSpread.Count}, true {Number(100 * TrueDamage(first.Mask))}", .. plain.Select(Number), Number(Deviation(plain)), Number(Deviation(white))]));
            tell($"five lights, leaf {plainSpread.Count} of {wanted}");
        }

        lines.Add(Line(["mean", .. LightColour.All.Select(_ => string.Empty), Number(plainSpread.Average()), Number(whiteSpread.Average())]));
        return string.Join('\n', lines);
    }

    // Leaflets that lie apart are read one by one; the truth is that of the whole leaf.
    private static double DamageOf(PhotoReading? reading)
    {
        if (reading is null)
        {
            return double.NaN;
        }

        double[] there = [.. reading.Leaves.Select(leaf => leaf.AreaPx * (1 - leaf.Shares.Chewed))];
        return reading.Leaves.Zip(there, (leaf, area) => leaf.Damage * area).Sum() / there.Sum();
    }

    private string Speed()
    {
        using RenderedSheet sheet = SheetRenderer.Render(Spec(new Random(seed), 0, 20) with { LongSidePx = 4000 });
        using Mat none = new(4000, 3000, MatType.CV_8UC3);
        Cv2.SetTheRNG(9);
        Cv2.Randn(none, new Scalar(80, 120, 90), Scalar.All(25));
        return "| reading the frame of 12 megapixels | ms, median of 5 |\n| --- | ---: |\n"
            + Line("with a sheet", Number(Milliseconds(sheet.Photo))) + "\n" + Line("without", Number(Milliseconds(none)));
    }

    private static double Milliseconds(Mat photo)
    {
        FrameReader.Read(photo, new FrameOptions());
        return Middle([.. Enumerable.Range(0, 5).Select(_ =>
        {
            Stopwatch watch = Stopwatch.StartNew();
            FrameReader.Read(photo, new FrameOptions());
            return watch.Elapsed.TotalMilliseconds;
        })]);
    }

    private static PhotoReading? Measure(Mat pixels, bool balance)
    {
        string file = Path.Combine(Path.GetTempPath(), $"leafscan-frame-{Guid.NewGuid():n}.jpg");
        Cv2.ImWrite(file, pixels, new ImageEncodingParam(ImwriteFlags.JpegQuality, 92));
        try
        {
            using PhotoOutcome opened = PhotoReader.Open(file, new PhotoLimits());
            using LeafMeasurement? measured = opened.Photo is { } photo ? LeafMeter.Measure(photo, new MeasureOptions { Frame = new FrameOptions { Balance = balance } }) : null;
            return measured?.Reading;
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static SheetSpec Spec(Random random, double tiltFrom, double tiltTo) => new()
    {
        Seed = random.Next(),
        Sheet = ScaleSheet.Of(PaperSize.All[random.Next(2)], SheetSide.Leaf),
        TiltDegrees = tiltFrom + (random.NextDouble() * (tiltTo - tiltFrom)),
        AxisDegrees = random.NextDouble() * 360,
        TurnDegrees = (random.NextDouble() * 30) - 15,
        Shading = 0.1 + (random.NextDouble() * 0.4),
        BlurPx = 0.4 + random.NextDouble(),
        Noise = 1.5 + (random.NextDouble() * 4),
        Light = LightColour.All[random.Next(LightColour.All.Count)],
    };

    private static double Deviation(List<double> values)
    {
        double mean = values.Average();
        return Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / (values.Count - 1));
    }

    private static double Middle(List<double> values) => values.Count == 0 ? double.NaN : values.Order().ElementAt(values.Count / 2);

    private static string Percent(double share) => double.IsNaN(share) ? "-" : (100 * share).ToString("0.00", CultureInfo.InvariantCulture) + " %";

    private static string Number(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);

    private static string Line(params object[] cells) => "| " + string.Join(" | ", cells.Select(c => Convert.ToString(c, CultureInfo.InvariantCulture))) + " |";
}
