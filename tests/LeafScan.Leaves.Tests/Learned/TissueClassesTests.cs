using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Leaves.Tissue;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Learned;

public class TissueClassesTests
{
    private static readonly double Lead = new TissueOptions().YellowedLead;

    [Theory]
    [InlineData(-0.1, MaskCode.Sound)]
    [InlineData(0.1, MaskCode.Yellowed)]
    public void A_pixel_is_yellowed_from_its_lead_over_sound_on(double beyond, MaskCode expected)
        => Assert.Equal(expected, CodeOf(sound: 2, speck: -3, yellow: 2 + Lead + beyond, brown: -3));

    [Fact]
    public void The_lead_is_asked_of_yellowed_tissue_only()
    {
        Assert.Equal(MaskCode.Speck, CodeOf(sound: 2, speck: 2.1, yellow: -3, brown: -3));
        Assert.Equal(MaskCode.Browned, CodeOf(sound: 2, speck: -3, yellow: -3, brown: 2.1));
    }

    [Fact]
    public void Yellowed_without_its_lead_leaves_the_pixel_to_the_next_best()
        => Assert.Equal(MaskCode.Speck, CodeOf(sound: 2, speck: 2.1, yellow: 2 + (Lead / 2), brown: -3));

    [Fact]
    public void Damage_lies_within_its_interval_and_doubt_widens_it()
    {
        (double sureLow, double sureHigh) = IntervalOf(yellow: 12);
        (double low, double high) = IntervalOf(yellow: 2 + Lead + 0.1);
        Assert.InRange(1.0, sureLow, sureHigh);
        Assert.InRange(1.0, low, high);
        Assert.True(low < sureLow, $"{low} of a leaf in doubt, {sureLow} of a sure one");
    }

    private static MaskCode CodeOf(double sound, double speck, double yellow, double brown)
    {
        using Mat codes = new(1, 1, MatType.CV_8UC1, Scalar.All(0));
        Code(codes, sound, speck, yellow, brown);
        return (MaskCode)codes.AsRow<byte>(0)[0];
    }

    private static (double Low, double High) IntervalOf(double yellow)
    {
        using Mat codes = new(1, 1, MatType.CV_8UC1, Scalar.All(0));
        return Code(codes, 2, -3, yellow, -3).Interval(0, 0, 0);
    }

    private static TissueClasses Code(Mat codes, double sound, double speck, double yellow, double brown)
    {
        using Mat mask = new(1, 1, MatType.CV_8UC1, Scalar.All(255));
        float[] classes = [-9, (float)sound, (float)speck, (float)yellow, (float)brown, -9];
        return TissueClasses.Code(new TissueScores(classes, new float[1], new float[1], new Size(1, 1), new Rect(0, 0, 1, 1)), mask, codes, Lead);
    }
}
