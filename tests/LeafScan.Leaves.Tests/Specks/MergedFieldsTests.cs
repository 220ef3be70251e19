using LeafScan.Leaves.Baseline;
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
    public void A_merged_field_is_given_most_of_the_specks_that_were_drawn_though_one_in_four_was_found(double discsOverArea)
    {
        List<SpeckMark> drawn = Draw(discsOverArea, seed: 3);
        Assert.InRange(Covered() / (double)(Side * Side), 1 - Math.Exp(-discsOverArea) - 0.04, 1 - Math.Exp(-discsOverArea) + 0.04);
        List<SpeckMark> specks = [.. drawn.Where((_, i) => i % 4 == 0)];

        int added = MergedFields.Split(specks, [], _codes, _mask, 2);

        Assert.True(added > 0);
        Assert.InRange(specks.Count, 0.65 * drawn.Count, 1.0 * drawn.Count);
    }

    [Fact]
    public void Added_specks_lie_on_speck_pixels_and_those_found_stay_as_they_were()
    {
        List<SpeckMark> found = [.. Draw(1.5, seed: 5).Where((_, i) => i % 3 == 0)];
        List<SpeckMark> specks = [.. found];

        MergedFields.Split(specks, [], _codes, _mask, 2);

        Assert.Equal(found, specks.Take(found.Count));
        Assert.All(specks.Skip(found.Count), s => Assert.Equal((byte)MaskCode.Speck, _codes.AsRow<byte>((int)s.Y)[(int)s.X]));
    }

    [Fact]
    public void Specks_that_stand_apart_are_left_alone()
    {
        List<SpeckMark> specks = [.. Draw(0.25, seed: 7).Where((_, i) => i % 2 == 0)];

        Assert.Equal(0, MergedFields.Split(specks, [], _codes, _mask, 2));
    }

    [Fact]
    public void Missing_specks_go_to_likely_places_first()
    {
        List<SpeckMark> drawn = Draw(1.5, seed: 11);
        List<SpeckMark> found = [.. drawn.Where((_, i) => i % 2 == 0)];

        // Between pixels, where nothing is placed but by being told.
        List<SpeckMark> hidden = [.. drawn.Where((_, i) => i % 2 == 1).Select(s => s with { X = s.X + 0.3 })];
        List<SpeckMark> blind = [.. found];
        List<SpeckMark> told = [.. found];
        MergedFields.Split(blind, [], _codes, _mask, 2);
        MergedFields.Split(told, hidden, _codes, _mask, 2);

        Assert.Equal(blind.Count, told.Count);
        Assert.True(Exact(told) > 0.6 * (told.Count - found.Count), $"{Exact(told)} of {told.Count - found.Count} on a likely place");
        Assert.Equal(0, Exact(blind));

        int Exact(List<SpeckMark> specks) => specks.Skip(found.Count).Count(s => hidden.Any(h => h.X == s.X && h.Y == s.Y));
    }

    [Fact]
    public void Specks_too_small_for_the_photo_are_not_multiplied_by_their_area()
    {
        List<SpeckMark> specks = [.. Draw(1.5, seed: 9).Where((_, i) => i % 3 == 0)];

        Assert.Equal(0, MergedFields.Split(specks, [], _codes, _mask, DiameterPx + 1));
        Assert.NotEqual(0, MergedFields.Split(specks, [], _codes, _mask, DiameterPx));
    }

    [Fact]
    public void A_field_in_which_too_few_were_found_to_know_their_size_is_left_alone()
    {
        List<SpeckMark> specks = [.. Draw(1.5, seed: 9).Take(4)];

        Assert.Equal(0, MergedFields.Split(specks, [], _codes, _mask, 2));
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

    private int Covered()
    {
        using Mat speck = new();
        Cv2.InRange(_codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        return Cv2.CountNonZero(speck);
    }
}
