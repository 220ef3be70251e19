using LeafScan.Frame;
using LeafScan.Photos;
using LeafScan.Taps.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Taps.Tests;

public class AlignmentTests
{
    [Theory]
    [InlineData(0, 1, 0, 0)]
    [InlineData(8, 1.05, -60, 90)]
    [InlineData(-25, 0.9, 150, -40)]
    public void Turned_and_shifted_photos_line_up_within_a_fifth_of_a_pixel(double degrees, double zoom, double right, double down)
    {
        // Outside check: the map that OpenCV itself makes for this turn about the middle.
        using Mat turn = Cv2.GetRotationMatrix2D(new Point2f(DrawnTap.Width / 2f, DrawnTap.Height / 2f), degrees, zoom);
        turn.GetArray(out double[] map);
        map[2] += right;
        map[5] += down;
        List<Dot> debris = DrawnTap.Debris(160, 21);
        using Photo first = DrawnTap.Photo(debris, 21);
        using Photo second = DrawnTap.Photo(debris, 22, map);
        TapReading reading = TapReader.Read([first, second], new TapOptions { SecondsBetween = 10 }).Reading!;
        using Mat found = Mat.FromPixelData(3, 3, MatType.CV_64FC1, reading.Alignments[0].ToArray());
        using Mat places = Mat.FromArray(new Vec2d(300, 250), new Vec2d(450, 350), new Vec2d(600, 450));
        using Mat moved = new();
        Cv2.PerspectiveTransform(places, moved, found);
        for (int i = 0; i < 3; i++)
        {
            Vec2d p = places.At<Vec2d>(i);
            Vec2d q = moved.At<Vec2d>(i);
            Assert.InRange(q.Item0 - ((map[0] * p.Item0) + (map[1] * p.Item1) + map[2]), -0.2, 0.2);
            Assert.InRange(q.Item1 - ((map[3] * p.Item0) + (map[4] * p.Item1) + map[5]), -0.2, 0.2);
        }

        Assert.InRange(reading.AlignmentErrorPx!.Value, 0.001, 0.5);
    }

    [Fact]
    public void Marks_read_on_the_sheet_line_up_what_specks_alone_cannot()
    {
        // One mite on a clean sheet: nothing else is the same in both photos but the printed sheet itself.
        Dot mite = new(300, 300, 2, 0.55);
        using Photo first = DrawnTap.Photo([mite], 23);
        using Photo second = DrawnTap.Photo([mite with { X = 330 }], 24, [1, 0, 25, 0, 1, -10]);
        TapOptions plain = new() { SecondsBetween = 10 };
        Assert.NotNull(TapReader.Read([first, second], plain).Refusal);
        SheetPlace a = new(new PlaneMap([0.1, 0, 0, 0, 0.1, 0, 0, 0, 1]));
        SheetPlace b = new(new PlaneMap([0.1, 0, -2.5, 0, 0.1, 1, 0, 0, 1]));
        TapReading reading = TapReader.Read([first, second], plain with { Sheets = [a, b] }).Reading!;
        Assert.Equal(1, reading.Crawling);
        Assert.Equal(3, reading.Specks.Single(s => s.Fate == SpeckFate.Crawling).MovedMm!.Value, 0.1);
    }

    [Fact]
    public void Pixels_per_mm_of_a_leaning_sheet_change_over_the_photo()
    {
        SheetPlace leaning = new(new PlaneMap([0.1, 0, 0, 0, 0.1, 0, 0.0002, 0, 1]));
        Assert.True(leaning.PixelsPerMmAt(900, 300) > leaning.PixelsPerMmAt(100, 300));
        Assert.Throws<ArgumentException>(() => new PlaneMap([1, 2, 3]));
    }
}
