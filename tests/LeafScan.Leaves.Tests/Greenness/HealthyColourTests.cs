using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Tests.Support;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Greenness;

/// <summary>A twig that has lost its green all over, alone and beside a photo of it in health.</summary>
public class HealthyColourTests
{
    // B, G, R of needles without green.
    private static readonly Scalar Yellow = new(60, 150, 160);

    [Fact]
    public void Yellow_and_brown_without_any_green_is_unsure_and_its_interval_holds_that_all_is_damage()
    {
        using DrawnTwig twig = new(0.3, sound: Yellow);
        using KindMeasurement alone = TwigMeter.Measure(twig.Pixels, new TwigOptions(), default);
        Assert.Contains(Flag.SoundColourUnsure.Name, alone.Reading!.Flags);
        Assert.InRange(alone.Reading.Damage, 0.2, 0.45);
        Assert.InRange(alone.Reading.DamageHigh, 0.95, 1);
        Assert.Null(alone.Reading.HealthyPhoto);
    }

    [Fact]
    public void A_gold_twig_without_brown_is_sure_and_sound()
    {
        using DrawnTwig twig = new(0, sound: Yellow);
        using KindMeasurement measured = TwigMeter.Measure(twig.Pixels, new TwigOptions(), default);
        Assert.DoesNotContain(Flag.SoundColourUnsure.Name, measured.Reading!.Flags);
        Assert.InRange(measured.Reading.DamageHigh, 0, 0.1);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(0.85, 1.15)]
    [InlineData(1.15, 0.85)]
    public void Beside_the_healthy_photo_all_of_it_is_damage_whatever_the_light(double redThen, double redNow)
    {
        HealthyColour healthy = Healthy(redThen);
        using DrawnTwig now = new(0.3, redNow, sound: Yellow);
        using KindMeasurement beside = TwigMeter.Measure(now.Pixels, new TwigOptions(), default, healthy);
        Assert.InRange(beside.Reading!.Damage, 0.97, 1);
        Assert.InRange(beside.Reading.Shares.Browned, 0.2, 0.45);
        Assert.DoesNotContain(Flag.SoundColourUnsure.Name, beside.Reading.Flags);
        Assert.DoesNotContain(Flag.LightNotCompared.Name, beside.Reading.Flags);
        Assert.Equal(healthy.Sha256, beside.Reading.HealthyPhoto);
    }

    [Theory]
    [InlineData(0.85)]
    [InlineData(1.15)]
    public void A_twig_that_is_green_still_reads_as_without_the_healthy_photo(double redThen)
    {
        HealthyColour healthy = Healthy(redThen);
        using DrawnTwig now = new(0.3);
        using KindMeasurement alone = TwigMeter.Measure(now.Pixels, new TwigOptions(), default);
        using KindMeasurement beside = TwigMeter.Measure(now.Pixels, new TwigOptions(), default, healthy);
        Assert.Equal(alone.Reading!.Damage, beside.Reading!.Damage, 1e-9);
        Assert.Equal(alone.Reading.DamageHigh, beside.Reading.DamageHigh, 1e-9);
    }

    // IEC 61966-2-1: sRGB 65, 115, 55 is 0.0529, 0.1714, 0.0382 in linear light; white is taken off, and 0.006 keeps dark pixels quiet.
    [Fact]
    public void The_colour_is_that_of_the_needles_in_linear_light_without_the_papers()
    {
        HealthyColour healthy = Healthy(1);
        double paper = Math.Log(0.7605 / 0.7454);
        Assert.Equal(Math.Log(0.0589 / 0.1774) - paper, healthy.RedToGreen, 0.05);
        Assert.Equal(Math.Log(0.0442 / 0.1774) + paper, healthy.BlueToGreen, 0.06);
        Assert.True(healthy.LightKnown);
        Assert.True(healthy.IsPlausible);
        Assert.False((healthy with { RedToGreen = double.NaN }).IsPlausible);
        Assert.False((healthy with { Kind = "leaf" }).IsPlausible);
    }

    [Fact]
    public void Without_anything_white_in_both_the_light_is_said_not_to_be_compared_and_the_interval_is_wider()
    {
        using DrawnTwig twig = new(0.3, sound: Yellow);
        SettledColour known = Settle(twig.Pixels, Healthy(1), new FrameLight(0, 0, true));
        SettledColour unknown = Settle(twig.Pixels, Healthy(1), FrameLight.Unknown);
        SettledColour otherKind = Settle(twig.Pixels, Healthy(1) with { Kind = "plant" }, new FrameLight(0, 0, true));
        Assert.Empty(known.Flags);
        Assert.Equal([Flag.LightNotCompared.Name], unknown.Flags);
        Assert.Equal([Flag.LightNotCompared.Name], otherKind.Flags);
        Assert.True(unknown.Bounds.High - unknown.Bounds.Low >= known.Bounds.High - known.Bounds.Low);
    }

    [Fact]
    public void Greener_than_in_health_is_said_and_measured_by_its_own_colour()
    {
        using DrawnTwig now = new(0.3);
        HealthyColour gold = Healthy(1) with { RedToGreen = 0.1 };
        using KindMeasurement alone = TwigMeter.Measure(now.Pixels, new TwigOptions(), default);
        using KindMeasurement beside = TwigMeter.Measure(now.Pixels, new TwigOptions(), default, gold);
        Assert.Contains(Flag.HealthyPhotoUnlike.Name, beside.Reading!.Flags);
        Assert.Equal(alone.Reading!.Damage, beside.Reading.Damage);
    }

    [Fact]
    public void Red_fall_colour_of_a_plant_stays_sound_beside_a_healthy_photo()
    {
        // Scarlet: ln(R/G) beyond 1.2.
        Assert.True(FallRed.Is(1.3f, -1));
        Assert.True(FallRed.Is(0.9f, -0.3f));
        Assert.False(FallRed.Is(0.9f, -0.9f));
        Assert.False(FallRed.Is(0.3f, -0.3f));
    }

    private static HealthyColour Healthy(double redLight)
    {
        using DrawnTwig healthy = new(0, redLight);
        using KindMeasurement measured = TwigMeter.Measure(healthy.Pixels, new TwigOptions(), default);
        OwnGreen sound = measured.Sound!;
        return new HealthyColour
        {
            Sha256 = new string('a', 64),
            Kind = "twig",
            RedToGreen = sound.RedToGreen,
            BlueToGreen = sound.BlueToGreen,
            Scatter = sound.Scatter,
            LightKnown = measured.LightKnown,
        };
    }

    private static SettledColour Settle(Mat pixels, HealthyColour healthy, FrameLight light)
    {
        using ColourPlanes planes = ColourPlanes.Of(pixels);
        using PaperModel? paper = PaperModel.Find(planes);
        using Mat twig = TwigCutter.Cut(pixels, planes, paper, default);
        using TwigTissue tissue = TwigTissue.Judge(pixels, planes, twig, true, new TwigOptions());
        return SettledColour.Settle(tissue.Codes, planes, tissue.Own, tissue.Bounds, healthy, light, new FoliageLook("twig", 0.26, 0.36));
    }
}
