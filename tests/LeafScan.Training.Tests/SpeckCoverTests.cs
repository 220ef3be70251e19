using LeafScan.Training.Bench;
using LeafScan.Training.Rendering.Damage;
using OpenCvSharp;

namespace LeafScan.Training.Tests;

public class SpeckCoverTests
{
    // Two equal discs of radius r at distance d share the lens 2 r² acos(d / 2r) - d/2 sqrt(4r² - d²): plane geometry, as in any handbook of formulas.
    [Theory]
    [InlineData(0)]
    [InlineData(30)]
    [InlineData(60)]
    [InlineData(90)]
    [InlineData(125)]
    public void Two_discs_share_the_lens_of_geometry(double apart)
    {
        const double R = 60;
        double lens = apart >= 2 * R ? 0 : (2 * R * R * Math.Acos(apart / (2 * R))) - (apart / 2 * Math.Sqrt((4 * R * R) - (apart * apart)));
        double[] cover = SpeckCover.Of([new Speck(100, 100, 2 * R, 1), new Speck(100 + apart, 100, 2 * R, 1)], new Size(400, 200));
        Assert.Equal(lens / (Math.PI * R * R), cover[0], 2);
        Assert.Equal(cover[0], cover[1], 2);
    }

    [Fact]
    public void A_small_speck_inside_a_large_one_is_hidden_and_the_large_one_is_not()
    {
        double[] cover = SpeckCover.Of([new Speck(50, 50, 40, 1), new Speck(55, 50, 8, 1), new Speck(150, 50, 8, 1)], new Size(200, 100));
        Assert.InRange(cover[0], 0.03, 0.05);
        Assert.Equal(1, cover[1]);
        Assert.Equal(0, cover[2]);
    }

    [Fact]
    public void Hidden_specks_are_left_out_of_the_figure_of_those_that_stand_apart()
    {
        PhotoRow row = new()
        {
            Key = "a",
            Set = "a",
            Kind = TruthKind.Full,
            Shares = new Dictionary<string, SharePair>(),
            LeavesFound = 1,
            SpecksTrue = 100,
            SpecksFound = 80,
            SpecksMatched = 70,
            SpecksByCover = new Dictionary<string, SpeckClass>
            {
                ["under 0.2"] = new(50, 45),
                ["0.2 to 0.6"] = new(10, 5),
                ["0.6 to 0.95"] = new(20, 12),
                ["0.95 and more"] = new(20, 8),
            },
        };
        Metric apart = Metric.All.Single(m => m.Name == "speckApartF1");

        // 50 of 60 found, and 80 less 20 paired with hidden ones were said: 2 * 50 / (60 + 60).
        Assert.Equal(100.0 / 120, apart.Value([row]), 12);
    }
}
