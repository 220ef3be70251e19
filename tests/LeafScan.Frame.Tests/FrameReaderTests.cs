using LeafScan.Frame.Sheets;
using LeafScan.Frame.Tests.Support;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Frame.Tests;

public sealed class FrameReaderTests
{
    private static readonly Scalar Tungsten = new(0.55, 0.82, 1.0);

    private static readonly Scalar Shade = new(1.0, 0.92, 0.8);

    [Theory]
    [InlineData("a4", 0, 0.0)]
    [InlineData("a4", 15, 200.0)]
    [InlineData("letter", 25, 75.0)]
    [InlineData("a4", 35, 30.0)]
    [InlineData("letter", 35, 120.0)]
    public void The_scale_is_within_one_percent_up_to_35_degrees(string paper, double tilt, double axis)
    {
        ScaleSheet sheet = Sheet(paper, SheetSide.Leaf);
        using DrawnSheet drawn = DrawnSheet.Take(sheet, tilt, axis).Spoil(0.8, 4, Tungsten);
        FrameReading frame = FrameReader.Read(drawn.Photo, new FrameOptions());
        Assert.Same(sheet, frame.Sheet?.Sheet);
        Assert.Equal(4, frame.Sheet!.MarkersSeen.Count);

        // Under this light bulb the paper's red may be at its end on the bright side.
        Assert.DoesNotContain(frame.Flags, name => name != Flag.ToneOff.Name);
        Assert.True(LargestScaleError(drawn, frame, sheet) < 0.01, $"{LargestScaleError(drawn, frame, sheet):P2}");
        Assert.True(frame.ScaleUncertainty < 0.01);
        Assert.True(frame.Sheet.ResidualMm < 0.2, $"{frame.Sheet.ResidualMm} mm");
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void With_one_corner_covered_it_is_within_two_percent(int corner)
    {
        ScaleSheet sheet = Sheet("a4", SheetSide.Leaf);
        using DrawnSheet drawn = DrawnSheet.Take(sheet, 30, 50, paint: (page, px) => Cover(page, px, sheet.Markers[corner].Area)).Spoil(0.8, 4, Shade);
        FrameReading frame = FrameReader.Read(drawn.Photo, new FrameOptions());
        Assert.Equal(3, frame.Sheet?.MarkersSeen.Count);
        Assert.True(LargestScaleError(drawn, frame, sheet) < 0.02, $"{LargestScaleError(drawn, frame, sheet):P2}");
    }

    [Fact]
    public void One_marker_alone_gives_a_rough_scale_that_says_so()
    {
        ScaleSheet sheet = Sheet("letter", SheetSide.Tap);
        using DrawnSheet drawn = DrawnSheet.Take(sheet, 10, 50, paint: (page, px) =>
        {
            foreach (SheetMarker marker in sheet.Markers.Skip(1))
            {
                Cover(page, px, marker.Area);
            }
        }).Spoil(0.8, 3, Shade);
        FrameReading frame = FrameReader.Read(drawn.Photo, new FrameOptions());
        Assert.Contains(Flag.ScaleRough.Name, frame.Flags);
        Assert.True(frame.ScaleUncertainty >= 0.03);
    }

    [Fact]
    public void A_leaf_shape_on_a_tilted_sheet_has_its_true_area_within_two_percent()
    {
        ScaleSheet sheet = Sheet("a4", SheetSide.Leaf);
        using DrawnSheet drawn = DrawnSheet.Take(sheet, 33, 20).Spoil(0.8, 4, Shade);
        FrameReading frame = FrameReader.Read(drawn.Photo, new FrameOptions());

        // An ellipse of 60 by 25 mm half axes; its area is pi a b.
        Point2d[] outline = [.. Enumerable.Range(0, 400).Select(i => Math.PI * 2 * i / 400).Select(t => drawn.At(105 + (25 * Math.Cos(t)), 120 + (60 * Math.Sin(t))))];
        Assert.Equal(Math.PI * 60 * 25, frame.Sheet!.AreaMm2(outline), Math.PI * 60 * 25 * 0.02);
    }

    [Fact]
    public void What_the_printer_made_of_the_bar_is_taken_into_account()
    {
        using DrawnSheet drawn = DrawnSheet.Take(Sheet("a4", SheetSide.Leaf), 5);
        double plain = FrameReader.Read(drawn.Photo, new FrameOptions()).PixelsPerMmAt(900, 1200)!.Value;
        double shrunk = FrameReader.Read(drawn.Photo, new FrameOptions { Printed = new PrintedScale(0.95) }).PixelsPerMmAt(900, 1200)!.Value;
        Assert.Equal(plain / 0.95, shrunk, plain * 1e-9);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void A_frame_without_sheet_or_tag_has_no_scale(int kind)
    {
        using Mat photo = new(900, 1200, MatType.CV_8UC3, new Scalar(60, 120, 80));
        if (kind == 1)
        {
            Cv2.SetTheRNG(3);
            Cv2.Randn(photo, Scalar.All(120), Scalar.All(50));
        }

        FrameReading frame = FrameReader.Read(photo, new FrameOptions());
        Assert.Null(frame.Sheet);
        Assert.Null(frame.PixelsPerMmAt(600, 450));
        Assert.Equal([Flag.NoScale.Name], frame.Flags);
    }

    [Fact]
    public void A_bent_sheet_is_flagged()
    {
        ScaleSheet sheet = Sheet("a4", SheetSide.Leaf);
        using DrawnSheet drawn = DrawnSheet.Take(sheet, 10);

        // Two opposite corners curl up, two stay down: a map that no plane has.
        (int rows, int columns) = (drawn.Photo.Rows, drawn.Photo.Cols);
        float[] fromX = new float[rows * columns];
        float[] fromY = new float[rows * columns];
        for (int i = 0; i < fromX.Length; i++)
        {
            (int y, int x) = (i / columns, i % columns);
            float twist = ((2f * x / columns) - 1) * ((2f * y / rows) - 1) * 0.03f;
            fromX[i] = x + ((x - (columns / 2f)) * twist);
            fromY[i] = y + ((y - (rows / 2f)) * twist);
        }

        using Mat mapX = Mat.FromPixelData(rows, columns, MatType.CV_32FC1, fromX);
        using Mat mapY = Mat.FromPixelData(rows, columns, MatType.CV_32FC1, fromY);
        using Mat bent = new();
        Cv2.Remap(drawn.Photo, bent, mapX, mapY, InterpolationFlags.Linear);
        FrameReading frame = FrameReader.Read(bent, new FrameOptions());
        Assert.True(frame.Flags.Contains(Flag.SheetBent.Name), $"residual {frame.Sheet?.ResidualMm} mm");
    }

    [Fact]
    public void Without_its_print_the_sheet_is_plain_and_a_leaf_on_it_untouched()
    {
        ScaleSheet sheet = Sheet("a4", SheetSide.Leaf);
        Scalar green = new(60, 130, 70);
        using DrawnSheet drawn = DrawnSheet.Take(sheet, 20, paint: (page, px) => Cv2.Ellipse(page, new Point((int)(105 * px), (int)(150 * px)), new Size((int)(25 * px), (int)(60 * px)), 0, 0, 360, green, -1));
        FrameReading frame = FrameReader.Read(drawn.Photo, new FrameOptions());
        using Mat plain = FrameReader.WithoutPrint(drawn.Photo, frame)!;
        foreach (SheetMarker marker in sheet.Markers)
        {
            Point2d at = drawn.At(marker.Area.LeftMm + 2, marker.Area.TopMm + 2);
            using Mat spot = plain.SubMat(new Rect((int)at.X - 2, (int)at.Y - 2, 5, 5));
            Assert.True(Cv2.Mean(spot).Val1 > 200);
        }

        foreach (GreyStep step in sheet.GreySteps)
        {
            Point2d at = drawn.At(step.Area.LeftMm + 8, step.Area.TopMm + 8);
            using Mat spot = plain.SubMat(new Rect((int)at.X - 2, (int)at.Y - 2, 5, 5));
            Assert.True(Cv2.Mean(spot).Val1 > 200);
        }

        Point2d middle = drawn.At(105, 150);
        using Mat leaf = plain.SubMat(new Rect((int)middle.X - 20, (int)middle.Y - 20, 40, 40));
        using Mat before = drawn.Photo.SubMat(new Rect((int)middle.X - 20, (int)middle.Y - 20, 40, 40));
        Assert.Equal(0, Cv2.Norm(leaf, before, NormTypes.L1));
        Assert.Null(FrameReader.WithoutPrint(drawn.Photo, FrameReading.Nothing));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void With_fewer_than_three_squares_nothing_but_those_squares_is_painted_over(int seen)
    {
        ScaleSheet sheet = Sheet("a4", SheetSide.Leaf);
        using DrawnSheet drawn = DrawnSheet.Take(sheet, 20, paint: (page, px) =>
        {
            foreach (SheetMarker marker in sheet.Markers.Skip(seen))
            {
                Cover(page, px, marker.Area);
            }
        }).Spoil(0.8, 3, Shade);
        FrameReading frame = FrameReader.Read(drawn.Photo, new FrameOptions());
        Assert.Equal(seen, frame.Sheet!.MarkersSeen.Count);
        using Mat plain = FrameReader.WithoutPrint(drawn.Photo, frame)!;
        using Mat changed = new();
        Cv2.Absdiff(plain, drawn.Photo, changed);
        foreach (SheetMarker marker in sheet.Markers.Take(seen))
        {
            Point2d middle = drawn.At(marker.Area.LeftMm + (marker.Area.WidthMm / 2), marker.Area.TopMm + (marker.Area.HeightMm / 2));
            int reach = (int)(marker.Area.WidthMm * drawn.PixelsPerMm(marker.Area.LeftMm, marker.Area.TopMm));
            Cv2.Rectangle(changed, Rect.Intersect(new Rect((int)middle.X - reach, (int)middle.Y - reach, 2 * reach, 2 * reach), new Rect(0, 0, changed.Cols, changed.Rows)), Scalar.All(0), -1);
        }

        Assert.Equal(0, Cv2.Norm(changed, NormTypes.INF));
        using Mat? balanced = FrameReader.Balanced(drawn.Photo, frame);
        Assert.Equal(seen < 2, balanced is null);
        if (balanced is not null)
        {
            // The paper beside the second square, in the light of both: equal channels but for the noise.
            SheetArea area = sheet.Markers[1].Area;
            Point2d at = drawn.At(area.LeftMm + (area.WidthMm / 2), area.TopMm + area.HeightMm + 3);
            using Mat paper = balanced.SubMat(new Rect((int)at.X - 4, (int)at.Y - 4, 9, 9));
            Scalar level = Cv2.Mean(paper);
            Assert.InRange(Math.Max(level.Val0, Math.Max(level.Val1, level.Val2)) - Math.Min(level.Val0, Math.Min(level.Val1, level.Val2)), 0, 6);
        }
    }

    // The curves are ours: more light until the paper clips, a curve that lifts the middle as HDR modes do, one that deepens it.
    [Theory]
    [InlineData(1.0, 1.0, false)]
    [InlineData(0.6, 1.0, false)]
    [InlineData(0.92, 0.9, false)]
    [InlineData(1.25, 1.0, true)]
    [InlineData(0.98, 0.5, true)]
    [InlineData(0.98, 1.8, true)]
    public void Burnt_out_paper_and_strong_tone_curves_are_flagged(double exposure, double curve, bool off)
    {
        using DrawnSheet drawn = DrawnSheet.Take(Sheet("a4", SheetSide.Leaf), 15);
        byte[] levels = [.. Enumerable.Range(0, 256).Select(i => (byte)Math.Round(255 * Math.Min(1, Math.Pow(i / 255.0 * exposure, curve))))];
        using Mat table = Mat.FromPixelData(1, 256, MatType.CV_8UC1, levels);
        using Mat photo = new();
        Cv2.LUT(drawn.Photo, table, photo);
        Assert.Equal(off, FrameReader.Read(photo, new FrameOptions()).Flags.Contains(Flag.ToneOff.Name));
    }

    [Fact]
    public void A_sheet_is_no_tag_and_a_plain_photo_shows_none()
    {
        using DrawnSheet drawn = DrawnSheet.Take(Sheet("a4", SheetSide.Leaf), 12);
        TagLook onSheet = FrameReader.LookForTags(drawn.Photo, new FrameOptions());
        Assert.Equal((0, false, true), (onSheet.Tags.Count, onSheet.Unread, onSheet.OnSheet));
        using Mat green = new(600, 800, MatType.CV_8UC3, new Scalar(60, 120, 80));
        Assert.Equal(TagLook.Nothing with { Tags = [] }, FrameReader.LookForTags(green, new FrameOptions()) with { Tags = [] });
    }

    private static ScaleSheet Sheet(string paper, SheetSide side) => ScaleSheet.Of(PaperSize.All.Single(p => p.Name == paper), side);

    private static void Cover(Mat page, double px, SheetArea a) =>
        Cv2.Rectangle(page, new Rect((int)((a.LeftMm - 2) * px), (int)((a.TopMm - 2) * px), (int)((a.WidthMm + 4) * px), (int)((a.HeightMm + 4) * px)), new Scalar(50, 90, 60), -1);

    // Over the field, where leaves lie.
    private static double LargestScaleError(DrawnSheet drawn, FrameReading frame, ScaleSheet sheet)
    {
        double largest = 0;
        for (double u = 0; u <= 1; u += 0.25)
        {
            for (double v = 0; v <= 1; v += 0.25)
            {
                (double x, double y) = (sheet.Field.LeftMm + (u * sheet.Field.WidthMm), sheet.Field.TopMm + (v * sheet.Field.HeightMm));
                Point2d at = drawn.At(x, y);
                largest = Math.Max(largest, Math.Abs((frame.PixelsPerMmAt(at.X, at.Y)!.Value / drawn.PixelsPerMm(x, y)) - 1));
            }
        }

        return largest;
    }
}
