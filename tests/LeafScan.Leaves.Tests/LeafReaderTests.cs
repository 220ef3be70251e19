using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests;

public class LeafReaderTests
{
    [Fact]
    public void A_clean_leaf_reads_as_sound_with_zeros()
    {
        using DrawnLeaf leaf = new DrawnLeaf().Photographed();
        LeafReading reading = leaf.Measure();
        Assert.Equal(0, reading.SpeckCount);
        Assert.Equal(0, reading.SpeckDiameterMedianPx);
        Assert.Equal(0, reading.Shares.Chewed);
        Assert.InRange(reading.Damage, 0, 0.002);
        Assert.Equal("sound", reading.Causes[0].Cause);
    }

    [Theory]
    [InlineData(3, 22)]
    [InlineData(5, 30)]
    public void Separate_specks_are_counted_and_measured(int radius, int step)
    {
        using DrawnLeaf leaf = new DrawnLeaf().WithSpecks(radius, step).Photographed();
        LeafReading reading = leaf.Measure();
        int truth = leaf.SpeckCentres.Count;
        Assert.InRange(reading.SpeckCount, truth * 0.97, truth * 1.03);
        double share = truth * Math.PI * radius * radius / Cv2.CountNonZero(leaf.Mask);
        Assert.InRange(reading.Shares.Stippled, share * 0.8, share * 1.35);
        Assert.InRange(reading.SpeckDiameterMedianPx, (2 * radius) - 1, (2 * radius) + 2);
        Assert.Equal("miteStippling", reading.Causes[0].Cause);

        // Each mark lies on a speck that was drawn.
        foreach (SpeckMark mark in reading.SpeckCentres)
        {
            Assert.True(
                leaf.SpeckCentres.Exists(c => Math.Abs(c.X - mark.X) < radius && Math.Abs(c.Y - mark.Y) < radius),
                $"{mark}, nearest {leaf.SpeckCentres.MinBy(c => Math.Abs(c.X - mark.X) + Math.Abs(c.Y - mark.Y))}, {reading.SpeckCount} of {truth}");
        }
    }

    [Fact]
    public void A_yellow_patch_and_a_brown_patch_are_measured_apart()
    {
        using DrawnLeaf leaf = new DrawnLeaf();
        leaf.WithPatch(new Point(250, 180), new Size(60, 50), new Scalar(70, 165, 160))
            .WithPatch(new Point(480, 180), new Size(30, 25), DrawnLeaf.Brown)
            .Photographed();
        LeafReading reading = leaf.Measure();
        double area = Cv2.CountNonZero(leaf.Mask);
        double yellow = Math.PI * 60 * 50 / area;
        double brown = Math.PI * 30 * 25 / area;
        Assert.InRange(reading.Shares.Yellowed, yellow * 0.85, yellow * 1.15);
        Assert.InRange(reading.Shares.Browned, brown * 0.9, brown * 1.1);
    }

    [Fact]
    public void Shares_add_up_to_one_whatever_is_on_the_leaf()
    {
        using DrawnLeaf leaf = new DrawnLeaf().WithSpecks(4, 18)
            .WithPatch(new Point(250, 180), new Size(60, 50), new Scalar(70, 165, 160))
            .WithPatch(new Point(480, 180), new Size(30, 25), DrawnLeaf.Brown)
            .WithPatch(new Point(400, 120), new Size(14, 12), Scalar.All(255))
            .WithBite(new Point(350, 40), 24).WithBite(new Point(330, 200), 12).Photographed();
        LeafShares s = leaf.Measure().Shares;
        Assert.Equal(1, s.Sound + s.Stippled + s.Yellowed + s.Browned + s.Chewed + s.Unassessed, 9);
        Assert.True(s is { Stippled: > 0, Yellowed: > 0, Browned: > 0, Chewed: > 0, Unassessed: > 0 });
    }

    [Fact]
    public void The_interval_holds_the_damage()
    {
        using DrawnLeaf leaf = new DrawnLeaf().WithSpecks(4, 26).Photographed();
        LeafReading r = leaf.Measure();
        Assert.True(r.DamageLow <= r.Damage && r.Damage <= r.DamageHigh);
        Assert.InRange(r.DamageLow, 0, 1);
        Assert.InRange(r.DamageHigh, 0, 1);
    }

    [Fact]
    public void Half_the_light_gives_the_same_reading()
    {
        using DrawnLeaf bright = new DrawnLeaf().WithSpecks(4, 26).WithPatch(new Point(250, 180), new Size(60, 50), new Scalar(70, 165, 160)).Photographed(1);
        using DrawnLeaf dim = new DrawnLeaf().WithSpecks(4, 26).WithPatch(new Point(250, 180), new Size(60, 50), new Scalar(70, 165, 160)).Photographed(1);

        // Half of the linear light is 0.735 of the sRGB level in this range (IEC 61966-2-1 transfer curve).
        using Mat lut = new(1, 256, MatType.CV_8UC1);
        for (int i = 0; i < 256; i++)
        {
            double c = i / 255.0;
            double linear = (c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4)) / 2;
            lut.Set(0, i, (byte)Math.Round(255 * (linear <= 0.0031308 ? linear * 12.92 : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055)));
        }

        Cv2.LUT(dim.Pixels, lut, dim.Pixels);
        LeafShares a = bright.Measure().Shares;
        LeafShares b = dim.Measure().Shares;
        Assert.InRange(b.Yellowed, a.Yellowed - 0.005, a.Yellowed + 0.005);
        Assert.InRange(b.Stippled, a.Stippled - 0.01, a.Stippled + 0.01);
    }

    [Theory]
    [InlineData(110, 120, 75)]
    [InlineData(60, 150, 150)]
    [InlineData(70, 60, 120)]
    public void A_sound_leaf_of_any_cultivar_colour_is_not_damaged(int blue, int green, int red)
    {
        using DrawnLeaf leaf = new DrawnLeaf(colour: new Scalar(blue, green, red)).Photographed();
        Assert.InRange(leaf.Measure().Damage, 0, 0.01);
    }
}
