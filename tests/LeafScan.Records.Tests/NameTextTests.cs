namespace LeafScan.Records.Tests;

/// <summary>Which names are kept. The marks are format characters (category Cf) of the Unicode Character Database.</summary>
public class NameTextTests
{
    [Theory]
    [InlineData("\u202E")]
    [InlineData("\u200B\u2066 \u2069")]
    [InlineData("  ")]
    [InlineData("a\u0007b")]
    public void A_name_that_nobody_can_see_is_not_kept(string name) => Assert.Null(NameText.Clean(name));

    [Theory]
    [InlineData(" B  03 ", "B 03")]
    [InlineData("ورد", "ورد")]
    [InlineData("می\u200Cروم", "می\u200Cروم")]
    public void A_name_that_can_be_seen_is_kept(string name, string kept) => Assert.Equal(kept, NameText.Clean(name));
}
