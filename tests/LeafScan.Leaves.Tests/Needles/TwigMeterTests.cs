using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Needles;

public class TwigMeterTests
{
    [Fact]
    public void Brown_needles_are_measured_against_the_twigs_own_green()
    {
        using DrawnTwig twig = new(0.3);
        using KindMeasurement measured = TwigMeter.Measure(twig.Pixels, new TwigOptions(), default);
        LeafReading reading = measured.Reading!;
        Assert.InRange(reading.Damage, 0.25, 0.36);
        Assert.InRange(reading.Shares.Browned, 0.22, 0.36);
        Assert.InRange(0.3, reading.DamageLow, reading.DamageHigh);
        Assert.Equal(1, reading.Shares.Sound + reading.Shares.Stippled + reading.Shares.Yellowed + reading.Shares.Browned + reading.Shares.Chewed + reading.Shares.Unassessed, 1e-9);
        Assert.Equal(twig.Pixels.Size(), measured.Mask!.Size());
        Assert.Equal(reading.AreaPx, Cv2.CountNonZero(measured.Mask));
    }

    [Fact]
    public void A_sound_twig_has_next_to_no_damage_and_is_called_sound()
    {
        using DrawnTwig twig = new(0);
        using KindMeasurement measured = TwigMeter.Measure(twig.Pixels, new TwigOptions(), default);
        Assert.InRange(measured.Reading!.Damage, 0, 0.02);
        Assert.Equal("sound", measured.Reading.Causes[0].Cause);
        Assert.Equal(0, measured.Reading.NewGrowth);
    }

    [Fact]
    public void Bright_new_growth_is_no_damage()
    {
        using DrawnTwig twig = new(0, freshNeedles: 0.3);
        using KindMeasurement measured = TwigMeter.Measure(twig.Pixels, new TwigOptions(), default);
        Assert.InRange(measured.Reading!.Damage, 0, 0.03);
        Assert.InRange(measured.Reading.NewGrowth!.Value, 0.15, 0.45);
        Assert.DoesNotContain(measured.Reading.Causes, cause => cause is { Cause: "miteStippling", Score: > 0.5 });
    }

    [Theory]
    [InlineData(0.85)]
    [InlineData(1.15)]
    public void Damage_and_greenness_stay_as_they_are_in_light_of_another_colour(double redLight)
    {
        using DrawnTwig plain = new(0.3);
        using DrawnTwig lit = new(0.3, redLight);
        using KindMeasurement first = TwigMeter.Measure(plain.Pixels, new TwigOptions(), default);
        using KindMeasurement second = TwigMeter.Measure(lit.Pixels, new TwigOptions(), default);
        Assert.Equal(first.Reading!.Damage, second.Reading!.Damage, 0.02);
        Assert.Equal(first.Reading.Greenness!.Value, second.Reading.Greenness!.Value, 0.02);
    }

    [Fact]
    public void Nothing_but_a_sheet_is_refused_with_advice()
    {
        using Mat sheet = new(600, 800, MatType.CV_8UC3, new Scalar(225, 228, 230));
        using KindMeasurement measured = TwigMeter.Measure(sheet, new TwigOptions(), default);
        Assert.Null(measured.Reading);
        Assert.Contains("No twig", measured.Refusal!.Value.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(10, 3000)]
    [InlineData(199, 199)]
    public void A_tiny_photo_is_refused(int height, int width)
    {
        using Mat tiny = new(height, width, MatType.CV_8UC3, new Scalar(60, 130, 70));
        using KindMeasurement measured = TwigMeter.Measure(tiny, new TwigOptions(), default);
        Assert.Contains("too small", measured.Refusal!.Value.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(128)]
    [InlineData(255)]
    public void A_photo_of_one_colour_never_throws(int value)
    {
        using Mat flat = new(400, 500, MatType.CV_8UC3, Scalar.All(value));
        using KindMeasurement measured = TwigMeter.Measure(flat, new TwigOptions(), default);
        Assert.NotNull(measured.Refusal);
    }
}
