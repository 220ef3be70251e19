using LeafScan.Leaves.Specks.Judge;

namespace LeafScan.Leaves.Tests.Specks;

public class CandidateFeatureTests
{
    private static readonly double[] White = [1, 1, 1];
    private static readonly double[] Bleached = [0.30, 0.29, 0.12];

    // Light mixed in moves the channels in the proportion (light - leaf): plain arithmetic of mixing, whatever the share.
    [Theory]
    [InlineData(0.3)]
    [InlineData(0.7)]
    public void White_light_moves_green_and_blue_with_red_and_a_feeding_mark_does_not(double share)
    {
        using JudgedPatch patch = new JudgedPatch().Mix(30, 48, 7, White, share).Mix(66, 48, 7, Bleached, share);
        List<SpeckCandidate> all = patch.Candidates().FindAll(c => c.ByNetwork);
        Assert.Equal(2, all.Count);
        Assert.InRange(all[0][SpeckFeature.CentreGreenToRed], (0.80 / 0.90) - 0.08, (0.80 / 0.90) + 0.08);
        Assert.InRange(all[0][SpeckFeature.CentreBlueToRed], (0.94 / 0.90) - 0.08, (0.94 / 0.90) + 0.08);
        Assert.InRange(all[1][SpeckFeature.CentreGreenToRed], (0.09 / 0.20) - 0.08, (0.09 / 0.20) + 0.08);
        Assert.InRange(all[1][SpeckFeature.CentreBlueToRed], (0.06 / 0.20) - 0.08, (0.06 / 0.20) + 0.08);
    }

    [Fact]
    public void A_dot_falls_off_on_all_sides_and_a_vein_on_two()
    {
        using JudgedPatch dot = new JudgedPatch().Mix(48, 48, 6, Bleached, 0.8);
        using JudgedPatch vein = new JudgedPatch().Mix(48, 48, 6, Bleached, 0.8, line: true);
        SpeckCandidate round = Assert.Single(dot.Candidates());
        SpeckCandidate ridge = vein.Candidates().Find(c => c.ByNetwork)!;
        Assert.True(round[SpeckFeature.LightnessRoundness] > 0.8);
        Assert.True(ridge[SpeckFeature.LightnessRoundness] < 0.3);
    }

    [Fact]
    public void What_network_and_colour_both_see_is_one_candidate()
    {
        using JudgedPatch patch = new JudgedPatch().Mix(48, 48, 7, Bleached, 0.8);
        SpeckCandidate one = Assert.Single(patch.Candidates());
        Assert.Equal(3, one[SpeckFeature.Source]);
        Assert.InRange(one.Mark.X, 47.5, 48.5);
    }

    [Fact]
    public void A_plain_leaf_has_no_candidates()
    {
        using JudgedPatch patch = new();
        Assert.Empty(patch.Candidates());
    }
}
