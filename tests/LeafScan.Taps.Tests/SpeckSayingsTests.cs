namespace LeafScan.Taps.Tests;

/// <summary>A person's words laid over what the photos gave.</summary>
public sealed class SpeckSayingsTests
{
    private static readonly TapSpeck[] Specks =
    [
        new(100, 100, 8, 20, SpeckFate.Crawling), new(200, 100, 8, 60, SpeckFate.PossiblePredator), new(300, 100, 8, 0, SpeckFate.Debris),
    ];

    [Fact]
    public void Without_a_word_the_photos_count()
    {
        IReadOnlyList<SaidSpeck> said = SpeckSayings.Lay(Specks, []);
        Assert.Equal((1, 1), (said.Count(speck => speck.IsMite), said.Count(speck => speck.IsPredator)));
    }

    [Fact]
    public void The_last_word_on_a_speck_counts_and_finds_it_within_its_reach()
    {
        IReadOnlyList<SaidSpeck> said = SpeckSayings.Lay(Specks, [new(104, 103, SpeckWord.NotMite), new(300, 100, SpeckWord.Mite), new(200, 100, SpeckWord.Mite), new(99, 100, SpeckWord.Predator)]);
        Assert.Equal([SpeckWord.Predator, SpeckWord.Mite, SpeckWord.Mite], said.Select(speck => speck.Said!.Value));
        Assert.Equal((2, 1), (said.Count(speck => speck.IsMite), said.Count(speck => speck.IsPredator)));
    }

    [Fact]
    public void A_word_on_an_empty_place_adds_a_speck_and_a_second_one_there_changes_it()
    {
        IReadOnlyList<SaidSpeck> said = SpeckSayings.Lay(Specks, [new(500, 500, SpeckWord.Mite), new(502, 500, SpeckWord.NotMite)]);
        Assert.Equal(4, said.Count);
        Assert.True(said[3] is { IsAdded: true, Said: SpeckWord.NotMite, IsMite: false });
    }
}
