using LeafScan.Leaves.FineTexture;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tests.Support;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.FineTexture;

public class FineTextureTests
{
    [Fact]
    public void Yellow_dots_of_a_pixel_read_as_stippled_and_white_glints_do_not()
    {
        LeafReading stippled = Measure(Strewn(new Scalar(50, 190, 175), 3), out _);
        LeafReading shining = Measure(Strewn(new Scalar(235, 240, 235), 3), out _);
        Assert.InRange(stippled.Shares.Stippled, 0.005, 0.4);
        Assert.True(stippled.Shares.Stippled > 5 * shining.Shares.Stippled, $"{stippled.Shares.Stippled} against {shining.Shares.Stippled}");
        Assert.True(Score(stippled, "miteStippling") > 5 * Score(shining, "miteStippling"));
        Assert.NotEqual("miteStippling", shining.Causes[0].Cause);
    }

    [Fact]
    public void Specks_of_a_pixel_are_flagged_not_counted_and_the_interval_is_wide()
    {
        LeafReading reading = Measure(Strewn(new Scalar(50, 190, 175), 3), out _);
        Assert.Contains(Flag.SpecksTooFine.Name, reading.Flags);
        Assert.Contains("loser", Flag.SpecksTooFine.Advice, StringComparison.Ordinal);
        Assert.Equal(0, reading.SpeckCount);
        Assert.True(reading.DamageHigh - reading.DamageLow > reading.Shares.Stippled);
        Assert.Contains(reading.Causes.Single(c => c.Cause == "miteStippling").Because, b => b.Contains("closer", StringComparison.Ordinal));
    }

    [Fact]
    public void The_mask_tells_the_same_share_as_the_reading()
    {
        LeafReading reading = Measure(Strewn(new Scalar(50, 190, 175), 3), out double masked);
        Assert.Equal(masked, reading.Shares.Stippled, 6);
        LeafShares s = reading.Shares;
        Assert.Equal(1, s.Sound + s.Stippled + s.Yellowed + s.Browned + s.Chewed + s.Unassessed, 9);
    }

    [Fact]
    public void A_plain_small_leaf_stays_sound_without_the_flag()
    {
        using DrawnLeaf leaf = new DrawnLeaf(260, 170).Photographed(1.5);
        LeafReading reading = Measure(leaf, out _);
        Assert.DoesNotContain(Flag.SpecksTooFine.Name, reading.Flags);
        Assert.InRange(reading.Shares.Stippled, 0, 0.002);
        Assert.Equal("sound", reading.Causes[0].Cause);
    }

    [Fact]
    public void A_leaf_with_pixels_enough_keeps_its_count_and_its_codes()
    {
        using DrawnLeaf leaf = new DrawnLeaf().WithSpecks(4, 24).Photographed();
        LeafReading plain = Measure(leaf, out _, new MeasureOptions { FineTexture = new FineTextureOptions { BelowLeafPx = 0 } });
        LeafReading usual = Measure(leaf, out _);
        Assert.True(usual.SpeckCount > 50);
        Assert.Equal(plain.SpeckCount, usual.SpeckCount);
        Assert.Equal(plain.Shares, usual.Shares);
        Assert.Equal((plain.DamageLow, plain.DamageHigh), (usual.DamageLow, usual.DamageHigh));
    }

    [Fact]
    public void Specks_that_can_be_counted_on_a_small_leaf_stay_counted()
    {
        using DrawnLeaf leaf = new DrawnLeaf(390, 260).WithSpecks(3, 24).Photographed();
        LeafReading reading = Measure(leaf, out _);
        Assert.InRange(reading.SpeckCount, leaf.SpeckCentres.Count * 0.9, leaf.SpeckCentres.Count * 1.1);
        Assert.DoesNotContain(Flag.SpecksTooFine.Name, reading.Flags);
    }

    [Fact]
    public void Correlation_agrees_with_a_worked_example()
    {
        // Pearson's r of (1,2,3,4,5) and (2,1,4,3,5) is 0.8: worked by hand, sums of products 8 over 10.
        using Mat a = Mat.FromArray(1f, 2, 3, 4, 5);
        using Mat b = Mat.FromArray(2f, 1, 4, 3, 5);
        using Mat mask = new(a.Size(), MatType.CV_8UC1, Scalar.All(255));
        Assert.Equal(0.8, Correlation.Of(a, b, mask), 9);
        Assert.Equal(3, Correlation.Median(a, mask), 9);
    }

    /// <summary>A bronzed small leaf with slow shading, strewn with one-pixel marks of a colour.</summary>
    private static DrawnLeaf Strewn(Scalar colour, int every)
    {
        DrawnLeaf leaf = new(260, 170, new Scalar(45, 105, 80), seed: 3);
        Random random = new(7);
        for (int y = 0; y < 170; y++)
        {
            for (int x = 0; x < 260; x++)
            {
                if (leaf.Mask.At<byte>(y, x) != 0 && random.Next(every * every) == 0)
                {
                    leaf.Pixels.Set(y, x, new Vec3b((byte)colour.Val0, (byte)colour.Val1, (byte)colour.Val2));
                }
            }
        }

        return leaf.Photographed(1.5);
    }

    private static double Score(LeafReading reading, string cause) => reading.Causes.FirstOrDefault(c => c.Cause == cause)?.Score ?? 0;

    private static LeafReading Measure(DrawnLeaf leaf, out double masked, MeasureOptions? options = null)
    {
        options ??= new MeasureOptions();
        FoundLeaf found = new(new Rect(0, 0, leaf.Pixels.Cols, leaf.Pixels.Rows), leaf.Mask.Clone(), []);
        using JudgedLeaf judged = FineTextureStep.Apply(leaf.Pixels, LeafFinder.ByColour(leaf.Pixels, found, options.Tissue), options.FineTexture);
        using Mat mask = new(leaf.Pixels.Size(), MatType.CV_8UC1, Scalar.All(0));
        LeafReading reading = LeafReader.Read(judged, mask, options);
        using Mat speck = new();
        Cv2.InRange(mask, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        masked = Cv2.CountNonZero(speck) / reading.AreaPx;
        return reading;
    }
}
