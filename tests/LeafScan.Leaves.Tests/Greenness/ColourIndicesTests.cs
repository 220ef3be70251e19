using LeafScan.Leaves.Greenness;

namespace LeafScan.Leaves.Tests.Greenness;

public class ColourIndicesTests
{
    // Karcher and Richardson 2003, Crop Science 43:943-951: ((H - 60)/60 + (1 - S) + (1 - B))/3; hue held to 60..120 degrees.
    // The first and third value are those printed for a healthy and a pale leaf colour; all were worked out by hand from the formula.
    [Theory]
    [InlineData(87, 108, 67, 0.569679)]
    [InlineData(70, 148, 73, 0.63086)]
    [InlineData(157, 188, 64, 0.28439)]
    [InlineData(40, 90, 30, 0.604575)]
    [InlineData(200, 200, 60, 0.171895)]
    public void The_dark_green_colour_index_follows_the_published_formula(int red, int green, int blue, double expected)
        => Assert.Equal(expected, ColourIndices.DarkGreen(red, green, blue), 1e-6);

    // Woebbecke and others 1995; Tucker 1979; Gitelson and others 2002; Louhaichi and others 2001. Worked out from the formulas.
    [Theory]
    [InlineData(87, 108, 67, 0.236641, 0.107692, 0.164062, 0.167568)]
    [InlineData(157, 188, 64, 0.378973, 0.089855, 0.11032, 0.259631)]
    [InlineData(231, 199, 31, 0.295011, -0.074419, -0.080201, 0.206061)]
    public void Other_indices_follow_their_formulas(int red, int green, int blue, double excess, double againstRed, double resistant, double leaf)
    {
        Assert.Equal(excess, ColourIndices.ExcessGreen(red, green, blue), 1e-6);
        Assert.Equal(againstRed, ColourIndices.GreenAgainstRed(red, green), 1e-6);
        Assert.Equal(resistant, ColourIndices.AtmosphericallyResistant(red, green, blue)!.Value, 1e-6);
        Assert.Equal(leaf, ColourIndices.GreenLeaf(red, green, blue), 1e-6);
    }

    [Fact]
    public void Black_and_a_zero_divisor_give_no_wild_number()
    {
        Assert.Equal(0, ColourIndices.ExcessGreen(0, 0, 0));
        Assert.Equal(0, ColourIndices.GreenLeaf(0, 0, 0));
        Assert.Equal(0, ColourIndices.GreenAgainstRed(0, 0));
        Assert.Null(ColourIndices.AtmosphericallyResistant(60, 60, 120));
        Assert.InRange(ColourIndices.DarkGreen(0, 0, 0), 0, 1);
    }

    [Fact]
    public void Indices_of_channel_shares_do_not_change_with_the_amount_of_light()
    {
        Assert.Equal(ColourIndices.ExcessGreen(157, 188, 64), ColourIndices.ExcessGreen(78.5, 94, 32), 1e-12);
        Assert.Equal(ColourIndices.GreenLeaf(157, 188, 64), ColourIndices.GreenLeaf(78.5, 94, 32), 1e-12);
    }
}
