using LeafScan.Leaves.Causes;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Causes;

/// <summary>Which signs speak for which cause is common practice in scouting, no source; the figures are those of plain cases.</summary>
public class CauseJudgeTests
{
    private static readonly SpeckPattern Fine = new(300, 0.006, 1.6, 0, 0);

    public static TheoryData<string> Names => ["miteStippling", "chewing", "leafSpot", "interveinalYellowing", "evenYellowing", "sound", "sunGlareOnly"];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_plain_case_of_each_cause_comes_first(string cause)
    {
        LeafFeatures features = cause switch
        {
            "miteStippling" => SomeFeatures.Of(stippled: 0.05, specks: Fine),
            "chewing" => SomeFeatures.Of(chewed: 0.06, bites: 3),
            "leafSpot" => SomeFeatures.Of(browned: 0.02, brown: new BrownPattern(14, 0.02, 0.1, 0.4)),
            "interveinalYellowing" => SomeFeatures.Of(yellowed: 0.25, yellow: new YellowPattern(0, 0, 0.25, 9)),
            "evenYellowing" => SomeFeatures.Of(yellowed: 0.9),
            "sunGlareOnly" => SomeFeatures.Of(unassessed: 0.2),
            _ => SomeFeatures.Of(),
        };
        Assert.Equal(cause, CauseJudge.Judge(features)[0].Cause);
    }

    [Fact]
    public void Causes_are_in_order_within_bounds_and_each_gives_a_reason_and_a_next_look()
    {
        IReadOnlyList<LeafCause> causes = CauseJudge.Judge(SomeFeatures.Of(0.05, 0.2, 0.02, 0.03, 0.02, Fine, brown: new BrownPattern(6, 0.03, 0.2, 0.3), bites: 2));
        Assert.True(causes.Count >= 4);
        Assert.Equal(causes.Select(c => c.Score).OrderDescending(), causes.Select(c => c.Score));
        Assert.All(causes, c => Assert.InRange(c.Score, 0, 1));
        Assert.All(causes.Where(c => c.Cause != "sound"), c => Assert.True(c.Because.Count >= 2));
    }

    [Fact]
    public void Many_small_brown_spots_with_pale_rims_do_not_pass_for_mites()
    {
        LeafFeatures septoria = SomeFeatures.Of(stippled: 0.02, browned: 0.03, specks: new SpeckPattern(60, 0.01, 1, 0.8, 0), brown: new BrownPattern(50, 0.012, 0.1, 0.5));
        IReadOnlyList<LeafCause> causes = CauseJudge.Judge(septoria);
        Assert.Equal("leafSpot", causes[0].Cause);
        Assert.True(StippleCauses.Mites(septoria).Score < 0.3);
        Assert.Contains(causes[0].Because, b => b.Contains("50 brown patches", StringComparison.Ordinal));
        Assert.Contains(causes[0].Because, b => b.Contains("yellow or pale", StringComparison.Ordinal));
    }

    [Fact]
    public void Stippling_always_asks_about_the_underside_and_droppings_between_coarse_flecks_put_lace_bugs_first()
    {
        LeafFeatures plain = SomeFeatures.Of(stippled: 0.08, specks: Fine);
        LeafCause possible = CauseJudge.Judge(plain).Single(c => c.Cause == "laceBugStipple");
        Assert.True(possible.Score < StippleCauses.Mites(plain).Score);
        Assert.Contains(possible.Because, b => b.Contains("underside", StringComparison.Ordinal));
        IReadOnlyList<LeafCause> dotted = CauseJudge.Judge(SomeFeatures.Of(stippled: 0.08, specks: new SpeckPattern(300, 0.025, 1, 0, 60)));
        Assert.Equal("laceBugStipple", dotted[0].Cause);
        Assert.Contains(dotted[0].Because, b => b.Contains("60 small dark dots", StringComparison.Ordinal));
    }

    [Fact]
    public void Yellow_about_specks_or_spots_is_not_called_yellowing_of_its_own()
    {
        double own = YellowCauses.Interveinal(SomeFeatures.Of(yellowed: 0.2)).Score;
        double aboutSpecks = YellowCauses.Interveinal(SomeFeatures.Of(yellowed: 0.2, yellow: new YellowPattern(1, 0, 0, 3))).Score;
        double aboutSpots = YellowCauses.Interveinal(SomeFeatures.Of(yellowed: 0.2, yellow: new YellowPattern(0, 1, 0, 3))).Score;
        Assert.True(aboutSpecks < 0.5 * own && aboutSpots < 0.5 * own);
    }

    [Fact]
    public void A_leaf_with_brown_spots_drawn_on_it_reads_as_leaf_spot_with_their_number()
    {
        using DrawnLeaf leaf = new();
        for (int i = 0; i < 9; i++)
        {
            leaf.WithPatch(new Point(170 + (45 * i), 120 + (25 * (i % 5))), new Size(9, 8), DrawnLeaf.Brown);
        }

        IReadOnlyList<LeafCause> causes = leaf.Photographed().Measure().Causes;
        Assert.Equal("leafSpot", causes[0].Cause);
        Assert.Contains(causes[0].Because, b => b.StartsWith("9 brown patches", StringComparison.Ordinal));
    }

    [Fact]
    public void Green_veins_in_a_yellow_blade_are_told_from_an_even_yellow_blade()
    {
        using Mat yellow = new(200, 400, MatType.CV_8UC1, Scalar.All(0));
        using Mat none = new(200, 400, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Rectangle(yellow, new Rect(50, 40, 300, 120), Scalar.All(255), -1);
        Assert.InRange(YellowPatternReader.Read([], yellow, none, 5).GreenLinesShare, 0, 0.001);
        for (int x = 60; x < 350; x += 24)
        {
            Cv2.Line(yellow, new Point(x, 40), new Point(x, 160), Scalar.All(0), 4);
        }

        // Thirteen lines of four to five pixels in three hundred: about a sixth.
        Assert.InRange(YellowPatternReader.Read([], yellow, none, 5).GreenLinesShare, 0.12, 0.25);
    }

    [Fact]
    public void Specks_along_the_midrib_are_counted_against_an_even_strewing()
    {
        Mat mask = new(200, 400, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Ellipse(mask, new Point(200, 100), new Size(180, 80), 0, 0, 360, Scalar.All(255), -1);
        List<SpeckMark> even = [];
        for (int y = 20; y < 180; y += 8)
        {
            for (int x = 20; x < 380; x += 8)
            {
                double u = (x - 200) / 175.0;
                double v = (y - 100) / 76.0;
                if ((u * u) + (v * v) < 1)
                {
                    even.Add(new SpeckMark(x, y, 3));
                }
            }
        }

        Assert.InRange(Times(mask, even), 0.8, 1.2);
        Assert.True(Times(mask, even.Where(s => Math.Abs(s.Y - 100) < 20).ToList()) > 2);
        mask.Dispose();
    }

    private static double Times(Mat mask, List<SpeckMark> specks)
    {
        using JudgedLeaf leaf = new(
            new LeafScan.Leaves.Outline.FoundLeaf(new Rect(0, 0, mask.Cols, mask.Rows), mask.Clone(), []),
            LeafScan.Leaves.Baseline.LeafPatch.Of(new Rect(0, 0, mask.Cols, mask.Rows), new Mat(mask.Size(), MatType.CV_8UC3, Scalar.All(90)), mask.Clone()),
            new LeafScan.Leaves.Tissue.TissueMap(mask.Clone(), specks, 0, 0, []));
        using Mat none = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        return SpeckPatternReader.Read(leaf, none, 3).AtMidribTimes;
    }
}
