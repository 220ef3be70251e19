using LeafScan.Photos.Pictures;

namespace LeafScan.Photos.Tests.Pictures;

/// <summary>Selection against a plain sort of the same values, which is the definition of a rank.</summary>
public sealed class RankedTests
{
    [Fact]
    public void Whatever_the_values_the_one_of_a_rank_is_that_of_the_sorted_list()
    {
        // Few different values as well as many: a picture's levels repeat.
        Random random = new(1);
        float[] odd = [float.NaN, float.PositiveInfinity, float.NegativeInfinity, 0f, -0f];
        for (int round = 0; round < 2000; round++)
        {
            float[] values = new float[random.Next(1, 400)];
            int kind = random.Next(3);
            for (int i = 0; i < values.Length; i++)
            {
                values[i] = random.Next(20) == 0 ? odd[random.Next(odd.Length)] : kind == 0 ? random.Next(-5, 6) : (float)((random.NextDouble() - 0.5) * 1e6);
            }

            int rank = random.Next(values.Length);
            float[] sorted = [.. values.Order()];
            Assert.Equal(sorted[rank], Ranked.At([.. values], rank));
        }
    }

    [Theory]
    [InlineData("rising")]
    [InlineData("falling")]
    [InlineData("all alike")]
    [InlineData("saw")]
    public void Values_in_an_order_of_their_own_take_no_longer_than_others(string order)
    {
        // A selection that parts badly would need a thousand times as many steps here, and the test minutes.
        float[] values = [.. Enumerable.Range(0, 1_000_000).Select(i => order switch { "rising" => i, "falling" => 1_000_000 - i, "all alike" => 7f, _ => i % 1000 })];
        float[] sorted = [.. values.Order()];
        foreach (int rank in (int[])[0, 1, 499_999, 999_999])
        {
            Assert.Equal(sorted[rank], Ranked.At([.. values], rank));
        }
    }

    [Fact]
    public void A_place_that_is_not_there_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Ranked.At([1f, 2f], 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ranked.At([1f, 2f], -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ranked.At<float>([], 0));
    }
}
