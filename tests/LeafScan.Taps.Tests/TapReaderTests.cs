using LeafScan.Photos;
using LeafScan.Taps.Tests.Support;

namespace LeafScan.Taps.Tests;

public class TapReaderTests
{
    private static readonly TapOptions TenSeconds = new() { SecondsBetween = 10 };

    [Fact]
    public void Specks_that_walk_are_counted_where_they_walked()
    {
        List<Dot> debris = DrawnTap.Debris(120, 1);
        List<(Dot Start, Dot End)> walkers = DrawnTap.Walkers(9, debris, 2, 5, 40);
        using Photo first = DrawnTap.Photo([.. debris, .. walkers.Select(w => w.Start)], 1);
        using Photo second = DrawnTap.Photo([.. debris, .. walkers.Select(w => w.End)], 2);
        TapReading reading = TapReader.Read([first, second], TenSeconds).Reading!;
        Assert.Equal(9, reading.Crawling);
        Assert.Equal(0, reading.PossiblePredators);
        Assert.InRange(reading.Debris!.Value, 118, 122);
        foreach ((Dot start, Dot end) in walkers)
        {
            TapSpeck found = reading.Specks.Single(s => s.Fate == SpeckFate.Crawling && Math.Abs(s.X - start.X) < 0.5 && Math.Abs(s.Y - start.Y) < 0.5);
            Assert.InRange(found.ToX - end.X, -0.5, 0.5);
            Assert.InRange(found.ToY - end.Y, -0.5, 0.5);
            Assert.InRange(found.DiameterPx, 3.2, 5.2);
        }
    }

    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void A_sheet_on_which_nothing_moves_has_no_walkers(int seed)
    {
        List<Dot> debris = DrawnTap.Debris(150, seed);
        using Photo first = DrawnTap.Photo(debris, seed);
        using Photo second = DrawnTap.Photo(debris, seed + 100, [0.999, 0.03, -12, -0.03, 0.999, 20]);
        TapReading reading = TapReader.Read([first, second], TenSeconds).Reading!;
        Assert.Equal(0, reading.Crawling);
        Assert.Equal(0, reading.PossiblePredators);
    }

    [Fact]
    public void One_photo_gives_candidates_and_no_count()
    {
        using Photo photo = DrawnTap.Photo(DrawnTap.Debris(40, 6), 6);
        TapReading reading = TapReader.Read([photo], TenSeconds).Reading!;
        Assert.Null(reading.Crawling);
        Assert.Null(reading.CrawlingHigh);
        Assert.Null(reading.Debris);
        Assert.InRange(reading.Candidates, 38, 42);
        Assert.Contains(Flag.OnePhotoOnly.Name, reading.Flags);
    }

    [Fact]
    public void Dust_that_the_wind_moved_is_not_counted()
    {
        List<Dot> debris = DrawnTap.Debris(140, 7);
        using Photo first = DrawnTap.Photo(debris, 7);
        using Photo second = DrawnTap.Photo(debris.Select((dot, i) => i % 3 == 0 ? dot with { X = dot.X + 11, Y = dot.Y - 5 } : dot), 8);
        TapReading reading = TapReader.Read([first, second], TenSeconds).Reading!;
        Assert.Equal(0, reading.Crawling);
        Assert.Contains(Flag.WindBlown.Name, reading.Flags);
        Assert.InRange(reading.Specks.Count(s => s.Fate == SpeckFate.Blown), 35, 50);
    }

    [Fact]
    public void What_runs_faster_than_a_mite_is_listed_apart()
    {
        // At 10 pixels per mm and 10 seconds a mite goes 90 pixels at most, a predator 400.
        List<Dot> debris = DrawnTap.Debris(60, 9);
        List<(Dot Start, Dot End)> mites = DrawnTap.Walkers(4, debris, 10, 20, 60);
        List<(Dot Start, Dot End)> fast = DrawnTap.Walkers(1, [.. debris, .. mites.Select(m => m.Start), .. mites.Select(m => m.End)], 11, 150, 200, 3);
        using Photo first = DrawnTap.Photo([.. debris, .. mites.Select(w => w.Start), fast[0].Start], 9);
        using Photo second = DrawnTap.Photo([.. debris, .. mites.Select(w => w.End), fast[0].End], 10);
        TapOptions scale = TenSeconds with { Sheets = [SheetPlace.FromAbove(10), SheetPlace.FromAbove(10)] };
        TapReading reading = TapReader.Read([first, second], scale).Reading!;
        Assert.Equal(4, reading.Crawling);
        Assert.Equal(1, reading.PossiblePredators);
        TapSpeck runner = reading.Specks.Single(s => s.Fate == SpeckFate.PossiblePredator);
        Assert.InRange(runner.MovedMm!.Value, 15, 20);
        Assert.DoesNotContain(Flag.NoScale.Name, reading.Flags);
    }

    [Fact]
    public void A_mite_that_rests_first_or_walks_twice_counts_once_over_three_photos()
    {
        List<Dot> debris = DrawnTap.Debris(80, 12);
        List<(Dot Start, Dot End)> late = DrawnTap.Walkers(3, debris, 13, 12, 30);
        List<(Dot Start, Dot End)> early = DrawnTap.Walkers(2, [.. debris, .. late.Select(w => w.Start), .. late.Select(w => w.End)], 14, 12, 30);
        using Photo a = DrawnTap.Photo([.. debris, .. late.Select(w => w.Start), .. early.Select(w => w.Start)], 12);
        using Photo b = DrawnTap.Photo([.. debris, .. late.Select(w => w.Start), .. early.Select(w => w.End)], 13);
        using Photo c = DrawnTap.Photo([.. debris, .. late.Select(w => w.End), .. early.Select(w => w.End with { X = w.End.X + 7 })], 14);
        Assert.Equal(2, TapReader.Read([a, b], TenSeconds).Reading!.Crawling);
        Assert.Equal(5, TapReader.Read([a, b, c], TenSeconds).Reading!.Crawling);
    }

    [Fact]
    public void Mites_that_creep_by_less_than_a_pixel_from_photo_to_photo_are_seen_over_a_burst()
    {
        List<Dot> debris = DrawnTap.Debris(90, 51);
        List<(Dot Start, Dot End)> walkers = DrawnTap.Walkers(6, debris, 52, 4.5, 5);
        List<Photo> burst = [];
        for (int i = 0; i < 6; i++)
        {
            burst.Add(DrawnTap.Photo([.. debris, .. walkers.Select(w => w.Start with { X = w.Start.X + ((w.End.X - w.Start.X) * i / 5), Y = w.Start.Y + ((w.End.Y - w.Start.Y) * i / 5) })], 51 + i));
        }

        TapOptions oneSecond = new() { SecondsBetween = 1 };
        TapReading all = TapReader.Read(burst, oneSecond).Reading!;
        TapReading two = TapReader.Read([burst[0], burst[1]], oneSecond).Reading!;
        burst.ForEach(photo => photo.Dispose());
        Assert.Equal(6, all.Crawling);
        Assert.Equal(0, two.Crawling);
        Assert.All(all.Specks.Where(s => s.Fate == SpeckFate.Crawling), s => Assert.InRange(s.MovedPx, 3.5, 5.5));
    }

    [Fact]
    public void Seconds_come_from_the_cameras_clock_and_their_lack_is_said()
    {
        List<Dot> debris = DrawnTap.Debris(30, 15);
        using Photo first = DrawnTap.Photo(debris, 15, second: 4);
        using Photo second = DrawnTap.Photo(debris, 16, second: 12);
        using Photo timeless = DrawnTap.Photo(debris, 17);
        Assert.Equal(8, TapReader.Read([first, second]).Reading!.Seconds);
        TapReading unknown = TapReader.Read([first, timeless]).Reading!;
        Assert.Null(unknown.Seconds);
        Assert.Contains(Flag.SecondsUnknown.Name, unknown.Flags);
    }

    [Theory]
    [InlineData(1 / 0.07, true)]
    [InlineData(16, false)]
    public void Fewer_than_three_pixels_for_the_smallest_mite_are_warned_of(double pixelsPerMm, bool warned)
    {
        // Worked example of the trade facts: at 0.07 mm a pixel (A4 filling 12 megapixels) a larva of 0.2 mm spans just under three pixels.
        using Photo photo = DrawnTap.Photo(DrawnTap.Debris(60, 18), 18);
        TapReading reading = TapReader.Read([photo], new TapOptions { Sheets = [SheetPlace.FromAbove(pixelsPerMm)] }).Reading!;
        Assert.Equal(warned, reading.Flags.Contains(Flag.MitesTooSmall.Name));
        Assert.Equal(pixelsPerMm, reading.PixelsPerMm!.Value, 6);
    }
}
