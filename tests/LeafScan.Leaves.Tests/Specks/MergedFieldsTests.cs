using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Specks;

/// <summary>
/// Discs that fall at random: the share they cover is 1 - exp(-n a), a theorem of stochastic geometry (the Boolean model).
/// Splitting turns it round, so its answer can be held against the number that was drawn.
/// </summary>
public sealed class MergedFieldsTests : IDisposable
{
    private const int Side = 400;
    private const int DiameterPx = 8;

    private readonly Mat _mask = new(Side, Side, MatType.CV_8UC1, Scalar.All(255));
    private readonly Mat _codes = new(Side, Side, MatType.CV_8UC1, Scalar.All((int)MaskCode.Sound));

    [Theory]
    [InlineData(1.2)]
    [InlineData(1.8)]
    public void A_merged_field_is_given_about_as_many_specks_as_were_drawn_however_many_places_are_offered(double discsOverArea)
    {
        List<SpeckMark> drawn = Draw(discsOverArea, seed: 3);
        Assert.InRange(Covered() / (double)(Side * Side), 1 - Math.Exp(-discsOverArea) - 0.04, 1 - Math.Exp(-discsOverArea) + 0.04);
        List<SpeckMark> specks = [.. drawn.Where((_, i) => i % 4 == 0)];

        int added = MergedFields.Split(specks, Everywhere(), _codes, _mask, 2);

        Assert.True(added > 0);
        Assert.InRange(specks.Count, 0.85 * drawn.Count, 1.15 * drawn.Count);
    }

    [Fact]
    public void What_was_drawn_and_not_found_is_added_where_it_is_offered_and_those_found_stay_as_they_were()
    {
        List<SpeckMark> drawn = Draw(1.5, seed: 11);
        List<SpeckMark> found = [.. drawn.Where((_, i) => i % 2 == 0)];
        List<SpeckPlace> hidden = [.. drawn.Where((_, i) => i % 2 == 1).Select(s => new SpeckPlace((float)s.X, (float)s.Y, 0.5f))];
        List<SpeckMark> specks = [.. found];

        MergedFields.Split(specks, hidden, _codes, _mask, 2);

        Assert.Equal(found, specks.Take(found.Count));
        Assert.All(specks.Skip(found.Count), s => Assert.Contains(hidden, h => h.X == s.X && h.Y == s.Y));
        Assert.InRange(specks.Count, found.Count + (0.5 * hidden.Count), drawn.Count);
    }

    [Fact]
    public void The_surest_places_come_first()
    {
        List<SpeckMark> found = [.. Draw(1.2, seed: 5).Where((_, i) => i % 2 == 0)];
        Random random = new(6);
        List<SpeckPlace> places = [.. Everywhere().Select(p => p with { Chance = 0.25f + (0.7f * random.NextSingle()) }).OrderByDescending(p => p.Chance)];
        List<SpeckMark> specks = [.. found];

        MergedFields.Split(specks, places, _codes, _mask, 2);

        HashSet<(double, double)> used = [.. specks.Skip(found.Count).Select(s => (s.X, s.Y))];
        double taken = places.Where(p => used.Contains((p.X, p.Y))).Average(p => p.Chance);
        Assert.True(taken > places.Average(p => p.Chance) + 0.1, $"{taken:0.00} for {places.Average(p => p.Chance):0.00} of all");
    }

    [Fact]
    public void Area_alone_adds_no_speck()
    {
        List<SpeckMark> specks = [.. Draw(1.5, seed: 5).Where((_, i) => i % 3 == 0)];

        Assert.Equal(0, MergedFields.Split(specks, [], _codes, _mask, 2));
    }

    [Fact]
    public void Specks_that_stand_apart_are_left_alone()
    {
        List<SpeckMark> specks = [.. Draw(0.15, seed: 7).Where((_, i) => i % 2 == 0)];

        Assert.InRange(MergedFields.Split(specks, Everywhere(), _codes, _mask, 2), 0, specks.Count / 20);
    }

    [Fact]
    public void Specks_too_small_for_the_photo_are_not_multiplied_by_their_area()
    {
        List<SpeckMark> specks = [.. Draw(1.5, seed: 9).Where((_, i) => i % 3 == 0)];

        Assert.Equal(0, MergedFields.Split(specks, Everywhere(), _codes, _mask, DiameterPx + 1));
        Assert.NotEqual(0, MergedFields.Split(specks, Everywhere(), _codes, _mask, DiameterPx));
    }

    [Fact]
    public void A_field_in_which_too_few_were_found_to_know_their_size_is_left_alone()
    {
        List<SpeckMark> specks = [.. Draw(1.5, seed: 9).Take(4)];

        Assert.Equal(0, MergedFields.Split(specks, Everywhere(), _codes, _mask, 2));
        Assert.Equal(4, specks.Count);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        _mask.Dispose();
        _codes.Dispose();
    }

    private List<SpeckMark> Draw(double discsOverArea, int seed)
    {
        Random random = new(seed);
        int count = (int)(discsOverArea * Side * Side / (Math.PI * DiameterPx * DiameterPx / 4));
        List<SpeckMark> drawn = [];
        for (int i = 0; i < count; i++)
        {
            (int x, int y) = (random.Next(Side), random.Next(Side));
            drawn.Add(new SpeckMark(x, y, DiameterPx));
            Cv2.Circle(_codes, new Point(x, y), DiameterPx / 2, Scalar.All((int)MaskCode.Speck), -1);
        }

        return drawn;
    }

    // A place on every third pixel.
    private static List<SpeckPlace> Everywhere()
        => [.. Enumerable.Range(0, (Side / 3) * (Side / 3)).Select(i => new SpeckPlace(1 + (i % (Side / 3) * 3), 1 + (i / (Side / 3) * 3), 0.5f))];

    private int Covered()
    {
        using Mat speck = new();
        Cv2.InRange(_codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        return Cv2.CountNonZero(speck);
    }
}
