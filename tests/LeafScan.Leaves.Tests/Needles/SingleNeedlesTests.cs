using LeafScan.Frame;
using LeafScan.Frame.Tags;
using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Needles;

/// <summary>Width and length of drawn strips, which are known exactly, and what follows for specks per cm.</summary>
public class SingleNeedlesTests
{
    [Theory]
    [InlineData(7)]
    [InlineData(9)]
    [InlineData(15)]
    public void Length_and_width_of_drawn_strips_are_found(int width)
    {
        using Mat strips = Strips(60, 90, width);
        SingleNeedles needles = SingleNeedles.Of(strips)!.Value;
        Assert.Equal(width, needles.WidthPx, 0.15 * width);
        Assert.Equal(60 * 90, needles.LengthPx, 60 * 90 * 0.15);
    }

    [Fact]
    public void Needles_that_cover_each_other_have_no_length()
    {
        using DrawnTwig twig = new(0);
        using KindMeasurement measured = TwigMeter.Measure(twig.Pixels, new TwigOptions(), default);
        Assert.Null(measured.NeedleLengthPx);
    }

    [Theory]
    [InlineData(3, 90, 60)]
    [InlineData(40, 60, 60)]
    [InlineData(9, 90, 5)]
    public void Needles_too_fine_shapes_too_stout_and_too_few_have_no_length(int width, int length, int count)
    {
        using Mat strips = Strips(count, length, width);
        Assert.Null(SingleNeedles.Of(strips));
    }

    [Fact]
    public void Nothing_and_a_full_frame_have_no_length()
    {
        using Mat none = new(300, 300, MatType.CV_8UC1, Scalar.All(0));
        using Mat full = new(300, 300, MatType.CV_8UC1, Scalar.All(255));
        Assert.Null(SingleNeedles.Of(none));
        Assert.Null(SingleNeedles.Of(full));
    }

    // 1000 px at 20 px/mm are 5 cm; a tenth of the foliage cannot be judged: 90 specks on 4.5 cm are 20 a cm.
    [Theory]
    [InlineData(20, 1, 20.0)]
    [InlineData(20, 0.5, null)]
    [InlineData(11, 1, null)]
    public void Specks_per_cm_are_of_the_length_that_can_be_judged_and_need_pixels(double pxPerMm, double workScale, double? perCm)
    {
        FrameReading frame = new() { Tags = [new TagSighting(new TagText("B12", 20), 5, 5, pxPerMm)] };
        LeafReading twig = new()
        {
            Outline = [new(0, 0), new(100, 0), new(100, 100)],
            AreaPx = 5000,
            Shares = new LeafShares(0.9, 0, 0, 0, 0, 0.1),
            Damage = 0,
            DamageLow = 0,
            DamageHigh = 0,
            SpeckCount = 90,
            SpeckDiameterMedianPx = 4,
            SpeckCentres = [],
            Causes = [],
            Flags = [],
        };
        LeafReading scaled = LeafScale.ApplyToFoliage(twig, frame, 1000, workScale);
        Assert.Equal(1000 / pxPerMm, scaled.NeedleLengthMm!.Value, 1e-9);
        Assert.Equal(perCm, scaled.SpecksPerCmOfNeedle is { } found ? Math.Round(found, 6) : null);
        Assert.Null(LeafScale.ApplyToFoliage(twig, frame, null, workScale).SpecksPerCmOfNeedle);
        Assert.Null(LeafScale.ApplyToFoliage(twig, FrameReading.Nothing, 1000, workScale).NeedleLengthMm);
    }

    private static Mat Strips(int count, int length, int width)
    {
        int apart = width + 12;
        int columns = Math.Max(1, 1000 / apart);
        int rows = (count + columns - 1) / columns;
        Mat strips = new((rows * (length + width + 14)) + 20, (columns * apart) + 20, MatType.CV_8UC1, Scalar.All(0));
        for (int i = 0; i < count; i++)
        {
            int x = 10 + ((i % columns) * apart);
            int y = 10 + ((i / columns) * (length + width + 14));
            Cv2.Rectangle(strips, new Rect(x, y, width, length), Scalar.All(255), -1);
        }

        return strips;
    }
}
