using LeafScan.Leaves.Overlay;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tests.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Overlay;

public class OverlayPainterTests
{
    private static readonly Scalar LeafGreen = new(60, 110, 70);

    [Theory]
    [InlineData(4000, 3000, 2000, 1500)]
    [InlineData(1200, 900, 1200, 900)]
    [InlineData(256, 200, 1024, 800)]
    [InlineData(1, 1, 360, 4)]
    public void The_photo_part_is_neither_huge_nor_tiny(int width, int height, int drawnWidth, int drawnHeight)
    {
        using Photo photo = Green(width, height);
        using Mat mask = new(height, width, MatType.CV_8UC1, Scalar.Black);
        using Mat overlay = OverlayPainter.Paint(photo, mask, SomeReading.Photo(SomeReading.Leaf() with { Outline = [] }));

        Assert.Equal(drawnWidth, overlay.Cols);
        Assert.True(overlay.Rows > drawnHeight, "the legend lies below the photo");
        Assert.Equal(MatType.CV_8UC3, overlay.Type());
    }

    [Fact]
    public void Sound_tissue_stays_as_it_was_photographed()
    {
        using Mat part = PaintAll(MaskCode.Sound);
        Assert.Equal(LeafGreen, Cv2.Mean(part));
    }

    [Theory]
    [InlineData(MaskCode.Yellowed)]
    [InlineData(MaskCode.Browned)]
    [InlineData(MaskCode.Chewed)]
    [InlineData(MaskCode.Unassessed)]
    public void Every_kind_keeps_a_pattern_in_grey_print(MaskCode code)
    {
        using Mat part = PaintAll(code);
        using Mat grey = new();
        Cv2.CvtColor(part, grey, ColorConversionCodes.BGR2GRAY);
        Cv2.MeanStdDev(grey, out Scalar _, out Scalar deviation);

        // WCAG 2.2, 1.4.11 asks for 3:1 between what carries meaning and its surroundings.
        grey.MinMaxLoc(out double darkest, out double lightest);
        Assert.True(Contrast(darkest, lightest) >= 3, $"contrast {Contrast(darkest, lightest):0.0}");
        Assert.True(deviation.Val0 > 5, $"grey levels vary by {deviation.Val0:0.0} only");
    }

    [Fact]
    public void Patterns_of_two_kinds_are_never_the_same_ink()
    {
        HatchPattern[] patterns = [.. Enum.GetValues<HatchPattern>().Where(pattern => pattern != HatchPattern.Ring)];
        foreach (HatchPattern one in patterns)
        {
            foreach (HatchPattern other in patterns.Where(other => other > one))
            {
                int differ = Enumerable.Range(0, 64 * 64).Count(i =>
                    OverlayHatch.Ink(one, i % 64, i / 64, 2) != OverlayHatch.Ink(other, i % 64, i / 64, 2));
                Assert.True(differ > 64 * 64 / 10, $"{one} and {other} differ in {differ} places only");
            }
        }
    }

    // M. Okabe and K. Ito, "Color Universal Design", 2008: sky blue, yellow, vermilion, reddish purple as published there.
    [Theory]
    [InlineData(MaskCode.Speck, 86, 180, 233)]
    [InlineData(MaskCode.Yellowed, 240, 228, 66)]
    [InlineData(MaskCode.Browned, 213, 94, 0)]
    [InlineData(MaskCode.Chewed, 204, 121, 167)]
    public void Colours_are_the_published_ones(MaskCode code, int red, int green, int blue) =>
        Assert.Equal(new Scalar(blue, green, red), OverlayStyle.All.Single(style => style.Code == code).Colour);

    [Fact]
    public void A_speck_gets_a_ring_and_keeps_its_middle()
    {
        using Photo photo = Green(1000, 1000);
        using Mat mask = new(1000, 1000, MatType.CV_8UC1, new Scalar((int)MaskCode.Sound));
        Cv2.Circle(mask, new Point(500, 500), 20, new Scalar((int)MaskCode.Speck), -1);
        using Mat overlay = OverlayPainter.Paint(photo, mask, SomeReading.Photo(SomeReading.Leaf() with { Outline = [] }));

        Assert.NotEqual(LeafGreen, Mean(overlay, new Rect(519, 498, 3, 5)));
        Scalar middle = Mean(overlay, new Rect(495, 495, 10, 10));
        Assert.True(middle.Val1 > 100 && middle.Val1 < 150, $"the middle stays green, but is {middle}");
    }

    [Fact]
    public void The_outline_is_light_with_a_dark_halo()
    {
        using Photo photo = Green(1000, 1000);
        using Mat mask = new(1000, 1000, MatType.CV_8UC1, new Scalar((int)MaskCode.Sound));
        LeafReading leaf = SomeReading.Leaf() with { Outline = [new(200, 200), new(800, 200), new(800, 800), new(200, 800)] };
        using Mat overlay = OverlayPainter.Paint(photo, mask, SomeReading.Photo(leaf));
        using Mat across = overlay[new Rect(500, 190, 1, 20)].Clone();
        using Mat grey = new();
        Cv2.CvtColor(across, grey, ColorConversionCodes.BGR2GRAY);
        grey.MinMaxLoc(out double darkest, out double lightest);
        Assert.True(darkest < 30 && lightest > 225, $"from {darkest} to {lightest}");
    }

    [Fact]
    public void A_mask_of_another_size_is_a_mistake_of_the_caller()
    {
        using Photo photo = Green(10, 10);
        using Mat mask = new(10, 11, MatType.CV_8UC1, Scalar.Black);
        Assert.Throws<ArgumentException>(() => OverlayPainter.Paint(photo, mask, SomeReading.Photo()));
    }

    private static Mat PaintAll(MaskCode code)
    {
        using Photo photo = Green(1000, 1000);
        using Mat mask = new(1000, 1000, MatType.CV_8UC1, new Scalar((int)code));
        using Mat overlay = OverlayPainter.Paint(photo, mask, SomeReading.Photo(SomeReading.Leaf() with { Outline = [] }));
        return overlay[new Rect(100, 100, 800, 800)].Clone();
    }

    private static Scalar Mean(Mat picture, Rect box)
    {
        using Mat part = picture[box];
        return Cv2.Mean(part);
    }

    // Contrast ratio of WCAG 2.2 for two grey levels.
    private static double Contrast(double dark, double light) => (Luminance(light) + 0.05) / (Luminance(dark) + 0.05);

    private static double Luminance(double level) =>
        level / 255 <= 0.04045 ? level / 255 / 12.92 : Math.Pow(((level / 255) + 0.055) / 1.055, 2.4);

    private static Photo Green(int width, int height) => new(
        new PhotoFacts
        {
            FileName = "green.png",
            Path = "green.png",
            Sha256 = new string('0', 64),
            ByteLength = 1,
            Format = PhotoFormat.Png,
            WidthPx = width,
            HeightPx = height,
        },
        new Mat(height, width, MatType.CV_8UC3, LeafGreen),
        []);
}
