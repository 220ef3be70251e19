using LeafScan.Leaves.Kinds;

namespace LeafScan.Leaves.Tests.Kinds;

public class KindFeaturesTests
{
    private const int Side = KindFeatures.SidePx;

    [Fact]
    public void Every_figure_has_a_name_of_its_own()
    {
        Assert.Equal(KindFeatures.Count, KindFeatures.Names.Count);
        Assert.Equal(KindFeatures.Count, KindFeatures.Names.Distinct().Count());
    }

    [Fact]
    public void Plain_colours_have_the_lab_values_of_the_standard()
    {
        // CIE 15 with the primaries of IEC 61966-2-1, D65: white is L* 100, pure sRGB green 87.73, -86.18, 83.18
        // (value from memory, common in colour-difference tables).
        Assert.Equal(100, Figure(Painted((_, _) => (255, 255, 255)), "whole.L"), 0.1);
        float[] green = Painted((_, _) => (0, 255, 0));
        Assert.Equal(87.73, Figure(green, "whole.L"), 0.2);
        Assert.Equal(-86.18, Figure(green, "whole.a"), 0.3);
        Assert.Equal(83.18, Figure(green, "whole.b"), 0.3);
    }

    [Fact]
    public void Shares_and_zones_are_those_that_were_painted()
    {
        float[] half = Painted((x, _) => x < Side / 2 ? (70, 130, 60) : (236, 238, 240));
        Assert.Equal(0.5, Figure(half, "whole.green"), 0.01);
        Assert.Equal(0.5, Figure(half, "pale.share"), 0.01);
        float[] spot = Painted((x, y) => Math.Abs(x - (Side / 2)) < 20 && Math.Abs(y - (Side / 2)) < 20 ? (70, 130, 60) : (236, 238, 240));
        Assert.True(Figure(spot, "centre.green") > 0.4);
        Assert.Equal(0, Figure(spot, "rim.green"));
        Assert.Equal(1, Figure(spot, "green.inBox"), 0.06);
    }

    [Fact]
    public void Thick_and_thin_green_differ_in_depth()
    {
        float[] thick = Painted((x, _) => x is > 30 and < 80 ? (70, 130, 60) : (236, 238, 240));
        float[] thin = Painted((x, _) => x % 8 < 3 ? (70, 130, 60) : (236, 238, 240));
        Assert.True(Figure(thick, "green.deeper12") > 0.4);
        Assert.Equal(0, Figure(thin, "green.deeper3"));
        Assert.True(Figure(thin, "green.pieces") > Figure(thick, "green.pieces"));
    }

    [Fact]
    public void Turning_a_picture_over_changes_nothing_but_rounding()
    {
        Random random = new(3);
        byte[] noise = new byte[Side * Side];
        random.NextBytes(noise);
        float[] one = Painted((x, y) => (noise[(y * Side) + x], 100, 30));
        float[] mirrored = Painted((x, y) => (noise[(y * Side) + Side - 1 - x], 100, 30));
        float[] a = KindFeatures.Of(one);
        float[] b = KindFeatures.Of(mirrored);
        for (int i = 0; i < a.Length; i++)
        {
            Assert.True(Math.Abs(a[i] - b[i]) < 0.02 + (0.02 * Math.Abs(a[i])), $"{KindFeatures.Names[i]}: {a[i]} and {b[i]}");
        }
    }

    private static double Figure(float[] rgb, string name) => KindFeatures.Of(rgb)[KindFeatures.Names.ToList().IndexOf(name)];

    private static float[] Painted(Func<int, int, (int R, int G, int B)> colour)
    {
        float[] rgb = new float[Side * Side * 3];
        for (int i = 0; i < Side * Side; i++)
        {
            (rgb[3 * i], rgb[(3 * i) + 1], rgb[(3 * i) + 2]) = colour(i % Side, i / Side);
        }

        return rgb;
    }
}
