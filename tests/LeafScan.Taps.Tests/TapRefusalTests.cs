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

    [Fact]
    public void A_blurred_photo_is_said_to_be_blurred_and_a_sharp_one_is_not()
    {
        List<Dot> debris = DrawnTap.Debris(120, 7);
        using Photo sharp = DrawnTap.Photo(debris, 7);
        using Photo blurred = DrawnTap.Photo(debris, 8, change: grey => Cv2.GaussianBlur(grey, grey, default, 3));
        Assert.Contains(Flag.Blurred.Name, TapReader.Read([blurred]).Reading!.Flags);
        Assert.DoesNotContain(Flag.Blurred.Name, TapReader.Read([sharp]).Reading!.Flags);
        TapOptions small = new() { Sheets = [SheetPlace.FromAbove(10)] };
        Assert.Contains("too blurred", TapReader.Read([blurred], small).Refusal!.Reason, StringComparison.Ordinal);
        Assert.Null(TapReader.Read([sharp], small).Refusal);
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

    private static void Shade(Mat grey, Rect place)
    {
        using Mat part = new(grey, place);
        part.ConvertTo(part, -1, 0.6);
    }
}
