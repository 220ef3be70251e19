using LeafScan.Notes.Client;

namespace LeafScan.Notes.Tests;

public class CauseWordsTests
{
    // Every name that a reading may give (LeafCause), on leaves, twigs and whole plants.
    [Theory]
    [InlineData("miteStippling", "leaf")]
    [InlineData("laceBugStipple", "leaf")]
    [InlineData("chewing", "leaf")]
    [InlineData("leafSpot", "leaf")]
    [InlineData("interveinalYellowing", "leaf")]
    [InlineData("evenYellowing", "twig")]
    [InlineData("sunGlareOnly", "leaf")]
    [InlineData("sound", "plant")]
    [InlineData("tipBrowning", "twig")]
    [InlineData("bandedNeedles", "twig")]
    [InlineData("dyingBack", "plant")]
    [InlineData("fallColour", "plant")]
    [InlineData("newGrowth", "twig")]
    public void No_name_of_a_cause_reaches_a_client_as_it_is_in_files(string cause, string kind)
    {
        string said = NoteSentences.Causes([cause], NoteThing.Of(kind))!;
        Assert.DoesNotContain(said.Skip(1), char.IsUpper);
        Assert.Contains(NoteThing.Of(kind).One, said, StringComparison.Ordinal);
    }
}
