using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.WholePlant;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.WholePlant;

public class CrownMeterTests
{
    [Fact]
    public void A_ball_that_is_brown_on_its_right_half_has_that_as_its_worst_side()
    {
        using Mat photo = Ball(brownRightOf: 0);
        using KindMeasurement measured = CrownMeter.Measure(photo, new CrownOptions(), null, default);
        Assert.InRange(measured.Reading!.Damage, 0.4, 0.6);
        Assert.Equal("right", measured.Reading.Crown!.WorstSide);
        Assert.Equal("none", measured.Reading.Crown.WorstHeight);
        Assert.Equal(6, measured.Reading.Crown.Sectors.Count);
        Assert.Equal(photo.Size(), measured.Mask!.Size());
    }

    [Fact]
    public void A_sound_ball_has_no_damage_no_gaps_and_no_worst_side()
    {
        using Mat photo = Ball(brownRightOf: 1000);
        using KindMeasurement measured = CrownMeter.Measure(photo, new CrownOptions(), null, default);
        Assert.InRange(measured.Reading!.Damage, 0, 0.02);
        Assert.InRange(measured.Reading.Crown!.Thinning, 0, 0.03);
        Assert.Equal("none", measured.Reading.Crown.WorstSide);
        Assert.Equal("sound", measured.Reading.Causes[0].Cause);
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(1.12)]
    public void Gold_foliage_is_judged_against_its_own_gold_even_in_warm_light(double redLight)
    {
        Scalar gold = new(35, 140, 152 * redLight);
        Scalar brown = new(60, 95, 135 * redLight);
        using Mat sound = Ball(1000, gold, brown);
        using KindMeasurement first = CrownMeter.Measure(sound, new CrownOptions(), null, default);
        Assert.InRange(first.Reading!.Damage, 0, 0.03);
        using Mat half = Ball(0, gold, brown);
        using KindMeasurement second = CrownMeter.Measure(half, new CrownOptions(), null, default);
        Assert.InRange(second.Reading!.Damage, 0.4, 0.6);
    }

    [Fact]
    public void Red_leaves_among_green_ones_are_fall_colour_and_their_seams_no_damage()
    {
        using Mat photo = Ball(1000, red: 0.25);
        using KindMeasurement measured = CrownMeter.Measure(photo, new CrownOptions(), null, default);
        Assert.InRange(measured.Reading!.Crown!.FallColour, 0.1, 0.4);
        Assert.InRange(measured.Reading.Damage, 0, 0.05);
    }

    [Fact]
    public void A_hole_in_the_crown_is_a_gap_and_not_foliage()
    {
        using Mat photo = Ball(1000);
        Cv2.Circle(photo, new Point(430, 330), 70, new Scalar(95, 100, 103), -1);
        using KindMeasurement measured = CrownMeter.Measure(photo, new CrownOptions { UseNetwork = false }, null, default);
        Assert.InRange(measured.Reading!.Crown!.Thinning, 0.04, 0.2);
    }

    [Fact]
    public void Of_a_hole_that_misleads_the_network_the_range_holds_the_gap_and_a_flag_says_so()
    {
        // A round grey hole in a ball of ellipses is like nothing the network has learned: it loses a side of the ball.
        using Mat photo = Ball(1000);
        Cv2.Circle(photo, new Point(430, 330), 70, new Scalar(95, 100, 103), -1);
        using KindMeasurement measured = CrownMeter.Measure(photo, new CrownOptions(), null, default);
        CrownReading crown = measured.Reading!.Crown!;
        Assert.Contains(Flag.WaysDiffer.Name, measured.Reading.Flags);
        double gap = 70.0 * 70 / (270 * 270);
        Assert.InRange(gap, crown.ThinningLow, crown.ThinningHigh);
    }

    [Theory]
    [InlineData(235, 215, 190)]
    [InlineData(128, 128, 128)]
    [InlineData(0, 0, 0)]
    [InlineData(255, 255, 255)]
    public void Nothing_but_sky_or_wall_is_refused_with_advice(int blue, int green, int red)
    {
        using Mat sky = new(600, 800, MatType.CV_8UC3, new Scalar(blue, green, red));
        using KindMeasurement measured = CrownMeter.Measure(sky, new CrownOptions(), null, default);
        Assert.Contains("No plant", measured.Refusal!.Value.Reason, StringComparison.Ordinal);
        Assert.NotEmpty(measured.Refusal.Value.Advice);
    }

    [Fact]
    public void A_tiny_photo_is_refused()
    {
        using Mat tiny = new(40, 60, MatType.CV_8UC3, new Scalar(60, 130, 70));
        using KindMeasurement measured = CrownMeter.Measure(tiny, new CrownOptions(), null, default);
        Assert.Contains("too small", measured.Refusal!.Value.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Even_colour_is_put_down_to_the_season_only_in_fall_and_with_a_date()
    {
        CaptureTime fall = new(new DateTime(2026, 10, 12, 10, 0, 0), null);
        CaptureTime spring = new(new DateTime(2026, 5, 12, 10, 0, 0), null);
        Assert.True(Season.Of(fall, 0.8, 0.1).MayBeFallColour);
        Assert.False(Season.Of(spring, 0.8, 0.1).MayBeFallColour);
        Assert.False(Season.Of(null, 0.8, 0.1).MayBeFallColour);
        Assert.False(Season.Of(fall, 0.8, 0.9).MayBeFallColour);
        Assert.False(Season.Of(fall, 0.2, 0.1).MayBeFallColour);
    }

    // Overlapping small leaves in a circle, before a pale wall; brown right of a place counted from the middle.
    private static Mat Ball(int brownRightOf, Scalar? own = null, Scalar? dead = null, double red = 0)
    {
        Scalar sound = own ?? new Scalar(50, 115, 65);
        Scalar brown = dead ?? new Scalar(45, 75, 120);
        Random random = new(3);
        Mat photo = new(750, 1000, MatType.CV_8UC3, new Scalar(190, 200, 205));
        for (int i = 0; i < 9000; i++)
        {
            double x = random.Next(-270, 270);
            double y = random.Next(-270, 270);
            if ((x * x) + (y * y) < 270 * 270)
            {
                double light = 0.7 + (0.5 * random.NextDouble());
                Scalar tone = x > brownRightOf ? brown : random.NextDouble() < red ? new Scalar(40, 30, 150) : sound;
                Scalar colour = new(tone.Val0 * light, tone.Val1 * light, tone.Val2 * light);
                Cv2.Ellipse(photo, new Point(500 + x, 400 + y), new Size(9, 4), random.Next(180), 0, 360, colour, -1, LineTypes.AntiAlias);
            }
        }

        return photo;
    }
}
