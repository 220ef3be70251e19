using LeafScan.Photos;
using LeafScan.Taps.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Taps.Tests;

/// <summary>Blur that hides mites is refused or named; what is in focus is neither.</summary>
public class FocusTests
{
    private static readonly TapOptions TenAMm = new() { SecondsBetween = 10, Sheets = [SheetPlace.FromAbove(10), SheetPlace.FromAbove(10)] };

    [Theory]
    [InlineData(0, 1.2, 1)]
    [InlineData(1, 1.2, 2)]
    [InlineData(2, 1.2, 3)]
    [InlineData(3, 1.2, 5)]
    [InlineData(0, 6, 6)]
    [InlineData(1, 6, 7)]
    [InlineData(2, 9, 8)]
    [InlineData(3, 14, 9)]
    public void The_spread_of_a_point_is_that_of_the_blur_whatever_lies_on_the_sheet(double blurPx, double leastRadiusPx, int seed)
    {
        // Outside check: OpenCV's own Gaussian blur; variances of blurs add up (0.7 as drawn, 1 by smoothing, which is cut off at two pixels).
        double drawn = (blurPx * blurPx) + (0.7 * 0.7) + 1;
        List<Dot> dots = [.. DrawnTap.Debris(40, seed).Select(dot => dot with { RadiusPx = dot.RadiusPx + leastRadiusPx - 1.2 })];
        using Photo photo = DrawnTap.Photo(dots, seed, change: grey => Blur(grey, blurPx));
        using TapShot shot = TapShot.Look(photo, TenAMm);
        Assert.InRange(shot.PointSpread, 0.8 * drawn, 1.6 * drawn);
    }

    [Fact]
    public void A_shaken_photo_has_a_spread_of_its_own_but_only_one_way()
    {
        using Photo photo = DrawnTap.Photo(DrawnTap.Debris(80, 7), 7, change: grey => Cv2.Blur(grey, grey, new Size(9, 1)));
        using TapShot shot = TapShot.Look(photo, TenAMm);
        Assert.InRange(shot.PointSpread, 1.2, 2.9);
    }

    [Theory]
    [InlineData(11)]
    [InlineData(12)]
    [InlineData(13)]
    public void A_pair_out_of_focus_is_refused_in_plain_words(int seed)
    {
        (Photo first, Photo second) = Pair(120, seed, 3);
        using (first)
        using (second)
        {
            TapRefusal why = TapReader.Read([first, second], TenAMm).Refusal!;
            Assert.Contains("too blurred to show a mite", why.Reason, StringComparison.Ordinal);
            Assert.Contains("focus", why.Advice, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Few_faint_specks_hide_no_blur()
    {
        // Before, fewer than five dark specks let a photo pass for sharp.
        List<Dot> faint = [.. DrawnTap.Debris(20, 14).Select(dot => dot with { RadiusPx = 2.4, Shade = 0.35 })];
        using Photo first = DrawnTap.Photo(faint, 14, change: grey => Blur(grey, 3));
        using Photo second = DrawnTap.Photo(faint, 15, change: grey => Blur(grey, 3));
        Assert.Contains("too blurred", TapReader.Read([first, second], TenAMm).Refusal!.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Slight_blur_is_named_and_the_range_holds_more_than_was_seen()
    {
        (Photo first, Photo second) = Pair(120, 16, 1.8);
        (Photo sharp, Photo sharpLater) = Pair(120, 16, 0);
        using (first)
        using (second)
        using (sharp)
        using (sharpLater)
        {
            TapReading blurred = TapReader.Read([first, second], TenAMm).Reading!;
            TapReading plain = TapReader.Read([sharp, sharpLater], TenAMm).Reading!;
            Assert.Contains(Flag.Blurred.Name, blurred.Flags);
            Assert.DoesNotContain(Flag.Blurred.Name, plain.Flags);
            Assert.True(blurred.SmallestVisibleMm > plain.SmallestVisibleMm);
            Assert.True(blurred.CrawlingHigh - blurred.Crawling > plain.CrawlingHigh - plain.Crawling);
        }
    }

    [Fact]
    public void The_same_blur_is_none_where_a_mite_has_many_pixels()
    {
        (Photo first, Photo second) = Pair(120, 17, 1.8);
        using (first)
        using (second)
        {
            TapOptions near = TenAMm with { Sheets = [SheetPlace.FromAbove(40), SheetPlace.FromAbove(40)] };
            Assert.DoesNotContain(Flag.Blurred.Name, TapReader.Read([first, second], near).Reading!.Flags);
        }
    }

    [Fact]
    public void Without_a_scale_a_blurred_photo_is_refused_as_one_of_a_whole_sheet()
    {
        using Photo blurred = DrawnTap.Photo(DrawnTap.Debris(120, 18), 18, change: grey => Blur(grey, 3));
        using Photo sharp = DrawnTap.Photo(DrawnTap.Debris(120, 18), 19);
        Assert.Contains("too blurred: without a scale", TapReader.Read([blurred]).Refusal!.Reason, StringComparison.Ordinal);
        Assert.DoesNotContain(Flag.Blurred.Name, TapReader.Read([sharp]).Reading!.Flags);
    }

    private static (Photo First, Photo Second) Pair(int count, int seed, double blurPx)
    {
        List<Dot> debris = DrawnTap.Debris(count, seed);
        List<(Dot Start, Dot End)> walkers = DrawnTap.Walkers(10, debris, seed + 100, 14, 40);
        return (
            DrawnTap.Photo([.. debris, .. walkers.Select(w => w.Start)], seed, change: grey => Blur(grey, blurPx)),
            DrawnTap.Photo([.. debris, .. walkers.Select(w => w.End)], seed + 50, change: grey => Blur(grey, blurPx)));
    }

    private static void Blur(Mat grey, double px)
    {
        if (px > 0)
        {
            Cv2.GaussianBlur(grey, grey, default, px);
        }
    }
}
