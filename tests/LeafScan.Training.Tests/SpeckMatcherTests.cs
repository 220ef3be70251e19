using LeafScan.Leaves.Reading;
using LeafScan.Training.Bench;
using LeafScan.Training.Rendering.Damage;

namespace LeafScan.Training.Tests;

public class SpeckMatcherTests
{
    [Fact]
    public void A_measured_speck_serves_one_true_speck_only()
    {
        bool[] hits = SpeckMatcher.Match([new Speck(10, 10, 5, 1), new Speck(11, 10, 5, 1)], [new SpeckMark(10.8, 10, 5)]);
        Assert.Equal([false, true], hits);
    }

    [Theory]
    [InlineData(5, 2.9, true)]
    [InlineData(5, 3.1, false)]
    [InlineData(12, 5.9, true)]
    [InlineData(12, 6.1, false)]
    public void The_reach_is_three_pixels_or_half_the_diameter(double diameter, double away, bool found)
    {
        bool[] hits = SpeckMatcher.Match([new Speck(50, 50, diameter, 1)], [new SpeckMark(50 + away, 50, 5)]);
        Assert.Equal([found], hits);
    }

    // Checked against the slow and plain way: every pair, sorted, on scattered points.
    [Fact]
    public void The_cells_lose_no_pair_that_a_search_over_all_pairs_finds()
    {
        Random random = new(5);
        Speck[] truth = [.. Enumerable.Range(0, 300).Select(_ => new Speck(random.NextDouble() * 200, random.NextDouble() * 200, 3 + (random.NextDouble() * 9), 1))];
        SpeckMark[] found = [.. Enumerable.Range(0, 300).Select(_ => new SpeckMark(random.NextDouble() * 200, random.NextDouble() * 200, 5))];
        List<(double D, int T, int F)> pairs = [];
        for (int t = 0; t < truth.Length; t++)
        {
            for (int f = 0; f < found.Length; f++)
            {
                double d = Math.Sqrt(Math.Pow(truth[t].X - found[f].X, 2) + Math.Pow(truth[t].Y - found[f].Y, 2));
                if (d <= Math.Max(3, truth[t].DiameterPx / 2))
                {
                    pairs.Add((d, t, f));
                }
            }
        }

        HashSet<int> truthDone = [];
        HashSet<int> foundDone = [];
        foreach ((_, int t, int f) in pairs.Order())
        {
            if (!truthDone.Contains(t) && foundDone.Add(f))
            {
                truthDone.Add(t);
            }
        }

        bool[] hits = SpeckMatcher.Match(truth, found);
        Assert.Equal(truthDone.Order(), Enumerable.Range(0, truth.Length).Where(i => hits[i]));
    }

    // The mark in the middle lies in reach of both specks and is nearer to the right one, whose other mark the left one does not reach.
    [Fact]
    public void As_many_pairs_as_can_be_are_counted_where_the_nearest_pair_leaves_two_alone()
    {
        Speck[] truth = [new(10, 10, 4, 1), new(13, 10, 4, 1)];
        SpeckMark[] found = [new(12.2, 10, 4), new(15.5, 10, 4)];

        Assert.Equal([false, true], SpeckMatcher.Match(truth, found));
        Assert.Equal(2, SpeckMatcher.MostPairs(truth, found));
        Assert.Equal(0, SpeckMatcher.MostPairs([], found));
    }

    // Against all ways to pair, tried one by one on small crowds.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void The_number_of_pairs_is_the_largest_of_all_ways_to_pair(int seed)
    {
        Random random = new(seed);
        for (int round = 0; round < 60; round++)
        {
            Speck[] truth = [.. Enumerable.Range(0, 7).Select(_ => new Speck(random.NextDouble() * 12, random.NextDouble() * 12, 3 + (random.NextDouble() * 5), 1))];
            SpeckMark[] found = [.. Enumerable.Range(0, 6).Select(_ => new SpeckMark(random.NextDouble() * 12, random.NextDouble() * 12, 5))];

            int most = SpeckMatcher.MostPairs(truth, found);

            Assert.Equal(Most(0, 0), most);
            Assert.True(most >= SpeckMatcher.Match(truth, found).Count(h => h));

            int Most(int t, int used)
            {
                if (t == truth.Length)
                {
                    return 0;
                }

                int best = Most(t + 1, used);
                for (int f = 0; f < found.Length; f++)
                {
                    double far = Math.Sqrt(Math.Pow(truth[t].X - found[f].X, 2) + Math.Pow(truth[t].Y - found[f].Y, 2));
                    if ((used & (1 << f)) == 0 && far <= Math.Max(3, truth[t].DiameterPx / 2))
                    {
                        best = Math.Max(best, 1 + Most(t + 1, used | (1 << f)));
                    }
                }

                return best;
            }
        }
    }

    [Fact]
    public void Nothing_true_and_nothing_found_is_no_trouble()
    {
        Assert.Empty(SpeckMatcher.Match([], []));
        Assert.Equal([false], SpeckMatcher.Match([new Speck(1, 1, 4, 1)], []));
    }
}
