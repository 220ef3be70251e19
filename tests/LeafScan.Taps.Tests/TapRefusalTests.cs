using LeafScan.Photos;
using LeafScan.Taps.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Taps.Tests;

public class TapRefusalTests
{
    [Fact]
    public void Photos_of_two_different_sheets_are_refused_in_words()
    {
        using Photo first = DrawnTap.Photo(DrawnTap.Debris(60, 1), 1);
        using Photo second = DrawnTap.Photo(DrawnTap.Debris(60, 2), 2);
        TapOutcome outcome = TapReader.Read([first, second]);
        Assert.Null(outcome.Reading);
        Assert.Contains("could not be lined up", outcome.Refusal!.Reason, StringComparison.Ordinal);
        Assert.EndsWith(".", outcome.Refusal.Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void A_photo_without_a_white_sheet_is_refused()
    {
        using Mat green = new(600, 800, MatType.CV_8UC3, new Scalar(40, 130, 60));
        using Photo photo = DrawnTap.Of(green.Clone(), "leaf.jpg");
        Assert.Contains("no white sheet", TapReader.Read([photo]).Refusal!.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Half_a_sheet_that_the_second_photo_does_not_show_is_refused_or_flagged()
    {
        List<Dot> debris = DrawnTap.Debris(150, 3);
        using Photo first = DrawnTap.Photo(debris, 3);
        using Photo half = DrawnTap.Photo(debris, 4, [1, 0, 360, 0, 1, 0]);
        TapOutcome outcome = TapReader.Read([first, half], new TapOptions { SecondsBetween = 10 });
        Assert.Contains(Flag.SheetPartly.Name, outcome.Reading!.Flags);
        Assert.Equal(0, outcome.Reading.Crawling);
        Assert.InRange(outcome.Reading.JudgedShare, 0.4, 0.65);
    }

    [Fact]
    public void A_sun_patch_with_hard_edges_gives_no_walkers_and_is_said()
    {
        List<Dot> debris = DrawnTap.Debris(120, 5);
        using Photo first = DrawnTap.Photo(debris, 5, change: grey => Shade(grey, new Rect(100, 100, 400, 300)));
        using Photo second = DrawnTap.Photo(debris, 6, change: grey => Shade(grey, new Rect(130, 90, 400, 300)));
        TapReading reading = TapReader.Read([first, second], new TapOptions { SecondsBetween = 10 }).Reading!;
        Assert.Equal(0, reading.Crawling);
        Assert.Contains(Flag.LightPatchy.Name, reading.Flags);
    }

    [Theory]
    [InlineData(9, 0)]
    [InlineData(9, 60)]
    [InlineData(7, 90)]
    public void A_shaken_photo_is_said_to_be_shaken_and_its_walkers_are_still_found(int lengthPx, int degrees)
    {
        List<Dot> debris = DrawnTap.Debris(120, 31);
        List<(Dot Start, Dot End)> walkers = DrawnTap.Walkers(8, debris, 32, 14, 40);
        using Photo first = DrawnTap.Photo([.. debris, .. walkers.Select(w => w.Start)], 31);
        using Photo steady = DrawnTap.Photo([.. debris, .. walkers.Select(w => w.End)], 32);
        using Photo shaken = DrawnTap.Photo([.. debris, .. walkers.Select(w => w.End)], 33, change: grey => Smear(grey, lengthPx, degrees));
        TapOptions ten = new() { SecondsBetween = 10 };
        TapReading reading = TapReader.Read([first, shaken], ten).Reading!;
        TapReading plain = TapReader.Read([first, steady], ten).Reading!;
        Assert.Contains(Flag.Shaken.Name, reading.Flags);
        Assert.DoesNotContain(Flag.Shaken.Name, plain.Flags);
        Assert.InRange(reading.Crawling!.Value, 7, 8);
        Assert.InRange(reading.CrawlingHigh!.Value, 9, 14);
        Assert.True(reading.SmallestVisiblePx > plain.SmallestVisiblePx);
    }

    [Fact]
    public void A_photo_too_shaken_for_a_mite_is_refused_by_that_word()
    {
        List<Dot> debris = DrawnTap.Debris(120, 34);
        using Photo shaken = DrawnTap.Photo(debris, 34, change: grey => Smear(grey, 24, 20));
        string reason = TapReader.Read([shaken], new TapOptions { Sheets = [SheetPlace.FromAbove(6)] }).Refusal!.Reason;
        Assert.Contains("too shaken", reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Threads_and_bits_that_lie_in_all_directions_are_no_shake()
    {
        // Three dots in a row make a bar; the rows turn by a golden angle, so no direction is common.
        List<Dot> bars = [.. DrawnTap.Debris(90, 35).SelectMany((dot, i) => Enumerable.Range(-1, 3).Select(step => dot with { X = dot.X + (3 * step * Math.Cos(i * 2.4)), Y = dot.Y + (3 * step * Math.Sin(i * 2.4)), RadiusPx = 1.6 }))];
        using Photo photo = DrawnTap.Photo(bars, 35);
        Assert.DoesNotContain(Flag.Shaken.Name, TapReader.Read([photo]).Reading!.Flags);
    }

    [Fact]
    public void A_photo_saved_again_is_said_to_be_a_copy_and_a_second_exposure_is_not()
    {
        List<Dot> debris = DrawnTap.Debris(100, 36);
        using Photo first = DrawnTap.Photo(debris, 36);
        Cv2.ImEncode(".jpg", first.Pixels, out byte[] stored, new ImageEncodingParam(ImwriteFlags.JpegQuality, 85));
        using Photo again = DrawnTap.Of(Cv2.ImDecode(stored, ImreadModes.Color), "again.jpg");
        using Photo second = DrawnTap.Photo(debris, 37);
        Assert.Contains("copy of the other", TapReader.Read([first, again]).Refusal!.Reason, StringComparison.Ordinal);
        Assert.Contains(Flag.SamePhoto.Name, TapReader.Read([first, again, second]).Reading!.Flags);
        Assert.DoesNotContain(Flag.SamePhoto.Name, TapReader.Read([first, second]).Reading!.Flags);
    }

    [Fact]
    public void A_photo_that_was_saved_half_as_large_is_read_with_the_other()
    {
        List<Dot> debris = DrawnTap.Debris(100, 38);
        List<(Dot Start, Dot End)> walkers = DrawnTap.Walkers(6, debris, 39, 16, 40, 3.5);
        using Photo first = DrawnTap.Photo([.. debris, .. walkers.Select(w => w.Start)], 38);
        using Photo second = DrawnTap.Photo([.. debris, .. walkers.Select(w => w.End)], 39);
        Mat half = new();
        Cv2.Resize(second.Pixels, half, default, 0.5, 0.5, InterpolationFlags.Area);
        using Photo small = DrawnTap.Of(half, "small.jpg");
        TapOutcome outcome = TapReader.Read([first, small], new TapOptions { SecondsBetween = 10 });
        Assert.Null(outcome.Refusal);
        TapReading reading = outcome.Reading!;
        Assert.Equal(6, reading.Crawling);
        Assert.True(reading.SmallestVisiblePx > 2);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    public void One_strange_photo_among_four_is_left_out_and_named(int at)
    {
        List<Dot> debris = DrawnTap.Debris(100, 40);
        List<(Dot Start, Dot End)> walkers = DrawnTap.Walkers(5, debris, 41, 14, 40);
        List<Photo> photos = [DrawnTap.Photo([.. debris, .. walkers.Select(w => w.Start)], 40), DrawnTap.Photo([.. debris, .. walkers.Select(w => w.Start)], 41), DrawnTap.Photo([.. debris, .. walkers.Select(w => w.End)], 42)];
        photos.Insert(at, DrawnTap.Photo(DrawnTap.Debris(60, 43), 43));
        TapOutcome outcome = TapReader.Read(photos, new TapOptions { SecondsBetween = 10 });
        photos.ForEach(photo => photo.Dispose());
        Assert.Equal(5, outcome.Reading!.Crawling);
        Assert.Equal(at == 0 ? 1 : 0, outcome.Reading.FirstPhoto);
        Assert.Equal(at, Assert.Single(outcome.LeftOut).Number);
    }

    [Fact]
    public void The_same_photo_twice_is_refused_instead_of_counted_as_none()
    {
        using Photo photo = DrawnTap.Photo(DrawnTap.Debris(40, 9), 9);
        Assert.Contains("same photo", TapReader.Read([photo, photo]).Refusal!.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void No_photo_at_all_is_a_mistake_of_the_caller() =>
        Assert.Throws<ArgumentException>(() => TapReader.Read(Array.Empty<Photo>()));

    // A straight line of even light: what a hand does that moves evenly while the shutter is open.
    private static void Smear(Mat grey, int lengthPx, int degrees)
    {
        using Mat line = new(lengthPx, lengthPx, MatType.CV_32FC1, Scalar.All(0));
        using (Mat row = line.RowRange(lengthPx / 2, (lengthPx / 2) + 1))
        {
            row.SetTo(Scalar.All(1));
        }

        using Mat turn = Cv2.GetRotationMatrix2D(new Point2f((lengthPx - 1) / 2f, (lengthPx - 1) / 2f), degrees, 1);
        using Mat kernel = new();
        Cv2.WarpAffine(line, kernel, turn, line.Size());
        kernel.ConvertTo(kernel, -1, 1 / Cv2.Sum(kernel).Val0);
        Cv2.Filter2D(grey, grey, -1, kernel);
    }

    private static void Shade(Mat grey, Rect place)
    {
        using Mat part = new(grey, place);
        part.ConvertTo(part, -1, 0.6);
    }
}
